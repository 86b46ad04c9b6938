#include "daemon/client/outside.hpp"

#include "daemon/client/signals.hpp"

#include <array>
#include <cerrno>
#include <charconv>
#include <clocale>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iterator>
#include <langinfo.h>
#include <sstream>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <system_error>
#include <unistd.h>

namespace barmkeep::barm {
namespace {

std::optional<std::string> read_whole_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file)
        return std::nullopt;
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

void write_whole_file(const std::string& path, std::string_view text) {
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file.write(text.data(), static_cast<std::streamsize>(text.size()));
    file.close();
    if (!file)
        throw std::system_error(errno, std::generic_category(), path);
}

std::string read_whole_stdin() {
    std::string text;
    std::array<char, 65536> chunk; // NOLINT: filled by read
    for (;;) {
        const auto got = ::read(STDIN_FILENO, chunk.data(), chunk.size());
        if (got > 0)
            text.append(chunk.data(), static_cast<std::size_t>(got));
        else if (got == 0 || errno != EINTR)
            return text; // a closed stdin is an empty one
    }
}

/// 0, or the error number.
int write_all(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const auto written = ::write(descriptor, text.data(), text.size());
        if (written >= 0)
            text.remove_prefix(static_cast<std::size_t>(written));
        else if (errno != EINTR)
            return errno;
    }
    return 0;
}

bool write_out(std::string_view text) {
    const int error = write_all(STDOUT_FILENO, text);
    if (error == 0 || error == EPIPE)
        return error == 0;
    throw std::system_error(error, std::generic_category(), "stdout");
}

/// Through the shell, as PAGER may hold options.
bool show_in_pager(std::string_view text, const std::string& pager) {
    std::FILE* pipe = ::popen(pager.c_str(), "we");
    if (pipe == nullptr)
        return false;
    std::fwrite(text.data(), 1, text.size(), pipe); // leaving the pager early is no error
    const int status = ::pclose(pipe);
    constexpr int not_found = 127;
    return !(WIFEXITED(status) && WEXITSTATUS(status) == not_found);
}

/// COLUMNS or LINES, else what the terminal says, else `otherwise`.
int screen_size(const char* variable, unsigned short winsize::*member, int otherwise) {
    if (const char* said = std::getenv(variable)) {
        int number = 0;
        std::from_chars(said, said + std::strlen(said), number);
        if (number > 0)
            return number;
    }
    winsize size{};
    if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.*member > 0)
        return size.*member;
    return otherwise;
}

} // namespace

Outside real_outside() {
    // write reports a closed pipe as an error; the signal would end barm without a message.
    std::signal(SIGPIPE, SIG_IGN);
    std::setlocale(LC_CTYPE, "");
    Outside outside;
    outside.environment = client::process_environment();
    outside.read_file = read_whole_file;
    outside.read_stdin = read_whole_stdin;
    outside.write_file = write_whole_file;
    outside.out = write_out;
    outside.err = [](std::string_view text) {
        write_all(STDERR_FILENO, text);
    };
    outside.page = show_in_pager;
    outside.interruption = [] {
        return std::make_unique<SignalInterruption>();
    };
    outside.out_is_terminal = ::isatty(STDOUT_FILENO) == 1;
    outside.err_is_terminal = ::isatty(STDERR_FILENO) == 1;
    outside.has_utf8 = std::strcmp(::nl_langinfo(CODESET), "UTF-8") == 0;
    outside.width = screen_size("COLUMNS", &winsize::ws_col, 80);
    outside.height = screen_size("LINES", &winsize::ws_row, 24);
    return outside;
}

} // namespace barmkeep::barm
