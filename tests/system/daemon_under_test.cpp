#include "tests/system/daemon_under_test.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <poll.h>
#include <spawn.h>
#include <sstream>
#include <stdexcept>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/un.h>
#include <sys/wait.h>
#include <unistd.h>

namespace barmkeep::test {
namespace {

using Environment = std::map<std::string, std::string>;

constexpr int time_max_ms = 60'000; ///< for what should come at once: a fault, not a pace

/// This process's environment with changes.
std::vector<std::string> environment_with(const Environment& changes) {
    std::vector<std::string> all;
    for (char** entry = environ; *entry != nullptr; ++entry) {
        const std::string text = *entry;
        if (!changes.contains(text.substr(0, text.find('='))))
            all.push_back(text);
    }
    for (const auto& [name, value] : changes)
        all.push_back(name + "=" + value);
    return all;
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
    std::vector<char*> all;
    for (auto& text : texts)
        all.push_back(text.data());
    all.push_back(nullptr);
    return all;
}

/// Starts a program with its output in two files.
pid_t spawn(std::vector<std::string> command, const Environment& changes, const std::string& out,
            const std::string& err) {
    auto environment = environment_with(changes);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    const int flags = O_WRONLY | O_CREAT | O_APPEND;
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, out.c_str(), flags, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, err.c_str(), flags, 0600);
    pid_t child = -1;
    const auto arguments = pointers(command);
    const auto variables = pointers(environment);
    const int failed = posix_spawn(&child, command.front().c_str(), &actions, nullptr,
                                   arguments.data(), variables.data());
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0)
        throw std::runtime_error(command.front() + ": " + std::strerror(failed));
    return child;
}

std::string content(const std::filesystem::path& file) {
    std::ifstream in(file);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

} // namespace

/// The datagram socket on which the daemon reports its state to its service manager.
class NoticeSocket {
public:
    explicit NoticeSocket(const std::filesystem::path& path) : path_{path} {
        std::filesystem::remove(path_);
        handle_ = ::socket(AF_UNIX, SOCK_DGRAM | SOCK_CLOEXEC, 0);
        sockaddr_un address{};
        address.sun_family = AF_UNIX;
        std::strncpy(address.sun_path, path_.c_str(), sizeof address.sun_path - 1);
        if (::bind(handle_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0)
            throw std::runtime_error(path_.string() + ": " + std::strerror(errno));
    }
    ~NoticeSocket() { ::close(handle_); }
    NoticeSocket(const NoticeSocket&) = delete;
    NoticeSocket& operator=(const NoticeSocket&) = delete;

    /// Takes notices until one has this line; false if the child ended first.
    [[nodiscard]] bool wait_for(const std::string& line, pid_t child) const {
        const int child_handle = static_cast<int>(::syscall(SYS_pidfd_open, child, 0));
        std::array<pollfd, 2> waited{pollfd{handle_, POLLIN, 0}, pollfd{child_handle, POLLIN, 0}};
        bool came = false;
        while (!came) {
            if (::poll(waited.data(), waited.size(), time_max_ms) <= 0)
                break;
            if ((waited[0].revents & POLLIN) == 0)
                break; // the child ended
            std::array<char, 512> text{};
            const auto length = ::recv(handle_, text.data(), text.size() - 1, 0);
            came =
                length > 0 && ("\n" + std::string(text.data()) + "\n").find("\n" + line + "\n") !=
                                  std::string::npos;
        }
        ::close(child_handle);
        return came;
    }

private:
    std::filesystem::path path_;
    int handle_ = -1;
};

ScratchFolder::ScratchFolder() {
    std::string pattern = "/tmp/barmkeep-XXXXXX";
    if (::mkdtemp(pattern.data()) == nullptr)
        throw std::runtime_error(std::strerror(errno));
    path_ = pattern;
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

Finished run(const std::vector<std::string>& command, const Environment& environment) {
    const ScratchFolder folder;
    const auto out = folder.path() / "out";
    const auto err = folder.path() / "err";
    const pid_t child = spawn(command, environment, out, err);
    int status = 0;
    ::waitpid(child, &status, 0);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1,
            WIFSIGNALED(status) ? WTERMSIG(status) : 0, content(out), content(err)};
}

DaemonUnderTest::DaemonUnderTest(const std::filesystem::path& folder, std::string clock,
                                 std::vector<std::string> settings)
    : folder_{folder}, clock_{std::move(clock)}, settings_{std::move(settings)} {}

DaemonUnderTest::~DaemonUnderTest() {
    if (child_ > 0)
        kill();
}

void DaemonUnderTest::start() {
    if (!std::filesystem::exists(config()))
        std::ofstream{config()};
    std::vector<std::string> command{BARMKEEPD_PROGRAM, "--config=" + config().string()};
    if (!clock_.empty())
        command.push_back("--clock=" + clock_);
    command.insert(command.end(), arguments_.begin(), arguments_.end());
    std::vector<std::string> settings{"ledger.file=" + ledger().string(),
                                      "socket.path=" + socket().string(),
                                      std::string("plugins.folders=") + BARMKEEP_PLUGINS};
    settings.insert(settings.end(), settings_.begin(), settings_.end()); // the last one wins
    for (const auto& setting : settings)
        command.push_back("--set=" + setting);
    start(std::move(command));
}

void DaemonUnderTest::start(std::vector<std::string> command) {
    notices_ = std::make_unique<NoticeSocket>(notice_path());
    auto environment = environment_;
    environment["NOTIFY_SOCKET"] = notice_path().string();
    child_ = spawn(std::move(command), environment, (folder_ / "out").string(),
                   (folder_ / "log").string());
    if (notices_->wait_for("READY=1", child_))
        return;
    kill();
    throw std::runtime_error("barmkeepd did not become ready:\n" + log());
}

int DaemonUnderTest::wait() {
    const int handle = static_cast<int>(::syscall(SYS_pidfd_open, child_, 0));
    pollfd waited{handle, POLLIN, 0};
    const bool ended = ::poll(&waited, 1, time_max_ms) > 0;
    ::close(handle);
    if (!ended)
        send_signal(SIGKILL);
    int status = 0;
    ::waitpid(child_, &status, 0);
    child_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

void DaemonUnderTest::send_signal(int signal) const {
    ::kill(child_, signal);
}

void DaemonUnderTest::wait_for_notice(const std::string& line) {
    if (!notices_->wait_for(line, child_))
        throw std::runtime_error("barmkeepd did not say " + line + ":\n" + log());
}

void DaemonUnderTest::reload() {
    send_signal(SIGHUP);
    wait_for_notice("READY=1");
}

int DaemonUnderTest::stop() {
    send_signal(SIGTERM);
    return wait();
}

void DaemonUnderTest::kill() {
    send_signal(SIGKILL);
    (void)wait();
}

std::string DaemonUnderTest::log() const {
    return content(folder_ / "log");
}

Finished DaemonUnderTest::barm(std::vector<std::string> arguments) const {
    std::vector<std::string> command{BARM_PROGRAM, "--socket", socket().string()};
    command.insert(command.end(), arguments.begin(), arguments.end());
    return run(command, {{"LANG", "C.UTF-8"}, {"NO_COLOR", "1"}, {"HOME", folder_.string()}});
}

} // namespace barmkeep::test
