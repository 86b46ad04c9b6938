// A real barmkeepd in a scratch folder, with a clock that the test sets.
//
// Readiness is awaited as a service manager would: by the READY=1 datagram on NOTIFY_SOCKET, so
// that no test sleeps or polls.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <sys/types.h>
#include <vector>

namespace barmkeep::test {

/// A folder of its own, short enough for a socket path, removed at the end.
class ScratchFolder {
public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

/// What a finished child process left.
struct Finished {
    int exit_code = -1; ///< or -1 if a signal ended it
    int signal = 0;
    std::string out;
    std::string err;
};

/// Runs a program to its end.  REQUIRES: it reads no input.
Finished run(const std::vector<std::string>& command,
             const std::map<std::string, std::string>& environment = {});

class NoticeSocket;

class DaemonUnderTest {
public:
    /// `settings` are given as --set, after those that put ledger and socket in `folder`.
    DaemonUnderTest(const std::filesystem::path& folder, std::string clock = "2026-03-02T08:00:00Z",
                    std::vector<std::string> settings = {});
    ~DaemonUnderTest();
    DaemonUnderTest(const DaemonUnderTest&) = delete;
    DaemonUnderTest& operator=(const DaemonUnderTest&) = delete;

    /// Starts it and waits until it is ready.  Throws std::runtime_error with its log if it ends
    /// instead.
    void start();
    /// The same with a command of the test's own, which must give the daemon `notice_path()`.
    void start(std::vector<std::string> command);
    /// Further arguments and environment of the next start().
    void set_arguments(std::vector<std::string> arguments) { arguments_ = std::move(arguments); }
    void set_environment(std::map<std::string, std::string> all) { environment_ = std::move(all); }
    /// Waits until it sends its service manager this line, such as "STOPPING=1".  Throws
    /// std::runtime_error with its log if it ends instead.
    void wait_for_notice(const std::string& line);
    /// SIGHUP, and waits until it says that it is ready again.
    void reload();
    /// SIGTERM, and waits; the exit code, or minus the signal that ended it.
    int stop();
    /// SIGKILL, and waits.
    void kill();
    void send_signal(int signal) const;
    /// Waits for its end; the exit code, or minus the signal that ended it: that is SIGKILL, ours,
    /// if it does not end.
    int wait();

    /// Its settings file: empty until a test writes it.
    [[nodiscard]] std::filesystem::path config() const { return folder_ / "barmkeepd.toml"; }
    [[nodiscard]] std::filesystem::path socket() const { return folder_ / "sock"; }
    [[nodiscard]] std::filesystem::path ledger() const { return folder_ / "cellar.ledger"; }
    [[nodiscard]] std::string log() const;
    /// Runs `barm ARGUMENTS` against it.
    [[nodiscard]] Finished barm(std::vector<std::string> arguments) const;

    [[nodiscard]] pid_t process() const { return child_; }
    [[nodiscard]] std::filesystem::path notice_path() const { return folder_ / "ready"; }

private:
    std::filesystem::path folder_;
    std::string clock_;
    std::vector<std::string> settings_;
    std::vector<std::string> arguments_;
    std::map<std::string, std::string> environment_;
    pid_t child_ = -1;
    std::unique_ptr<NoticeSocket> notices_;
};

} // namespace barmkeep::test
