// The real program as a process: what only a process has (pipes, signals, an environment).
#include "tests/client/fake_cellar.hpp"

#include <array>
#include <csignal>
#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace barmkeep::test {
namespace {

using testing::HasSubstr;

/// `VARIABLES barm WORDS REDIRECTIONS` through a shell with an otherwise empty environment.
struct Shelled {
    int code;
    std::string out;
};

class BarmProcess : public testing::Test {
protected:
    BarmProcess() { add_fake_cellar(daemon.table()); }

    /// `line` has BARM for the program with its socket.
    Shelled shell(std::string line) const {
        const std::string program =
            std::string(BARM_PROGRAM) + " --time-out=20s --socket " + daemon.socket();
        for (auto at = line.find("BARM"); at != std::string::npos;
             at = line.find("BARM", at + program.size()))
            line.replace(at, 4, program);
        const std::string quoted =
            "env -i PATH=/usr/bin:/bin " + variables + " sh -c '" + line + "'";
        std::FILE* pipe = ::popen(quoted.c_str(), "r");
        std::string out;
        std::array<char, 4096> chunk{};
        for (std::size_t got = 0; (got = std::fread(chunk.data(), 1, chunk.size(), pipe)) > 0;)
            out.append(chunk.data(), got);
        const int status = ::pclose(pipe);
        return {WEXITSTATUS(status), out};
    }

    FakeDaemon daemon;
    std::string variables;
};

TEST_F(BarmProcess, WorksWithoutHomeOrAnyEnvironment) {
    const auto ran = shell("BARM stock list --plain 2>&1");
    EXPECT_EQ(ran.code, 0) << ran.out;
    EXPECT_THAT(ran.out, HasSubstr("light dry extract\textract\t2.5 kg\t500 g\t2 kg"));
}

TEST_F(BarmProcess, EndsQuietlyOnAClosedPipe) {
    const std::string folder = daemon.folder().string();
    const auto ran = shell("(BARM manual 2>" + folder + "/err; echo code $? >" + folder +
                           "/code) | head -1; cat " + folder + "/code " + folder + "/err");
    EXPECT_EQ(ran.out, "# Methods\ncode 0\n");
}

TEST_F(BarmProcess, SaysWhenStdoutIsFull) {
    const auto ran = shell("BARM manual 2>&1 >/dev/full");
    EXPECT_EQ(ran.code, 74);
    EXPECT_THAT(ran.out, HasSubstr("No space left on device"));
}

TEST_F(BarmProcess, LivesWithStdinClosed) {
    EXPECT_EQ(shell("BARM stock list <&- >/dev/null 2>&1").code, 0);
}

TEST_F(BarmProcess, KeepsToAsciiInTheCLocale) {
    variables = "LANG=C COLUMNS=40";
    const auto ran = shell("BARM --no-plain; BARM help --no-plain; BARM stock list --no-plain");
    EXPECT_EQ(ran.code, 0);
    for (const char c : ran.out)
        ASSERT_LT(static_cast<unsigned char>(c), 0x80);
}

TEST_F(BarmProcess, WatchesUntilASignal) {
    daemon.post_event("lot.changed", {{"code", "J14X"}});
    const std::string socket = daemon.socket();
    std::array<int, 2> pipe{};
    ASSERT_EQ(::pipe2(pipe.data(), O_CLOEXEC), 0);
    const pid_t child = ::fork();
    if (child == 0) {
        ::dup2(pipe[1], STDOUT_FILENO);
        ::execl(BARM_PROGRAM, "barm", "-q", "--socket", socket.c_str(), "--plain", "event", "watch",
                "--after", "0", nullptr);
        ::_exit(99);
    }
    ::close(pipe[1]);
    std::array<char, 256> line{};
    const auto got = ::read(pipe[0], line.data(), line.size());
    ASSERT_GT(got, 0);
    EXPECT_EQ(std::string(line.data(), static_cast<std::size_t>(got)),
              "1\t2026-03-14 08:30:00 UTC\tlot.changed\tcode=J14X\n");
    ::kill(child, SIGINT);
    int status = 0;
    ::waitpid(child, &status, 0);
    ::close(pipe[0]);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST_F(BarmProcess, CompletionIsOneCandidateALine) {
    EXPECT_EQ(shell("BARM complete -- equipment \"\"").out,
              "list\tLists canners, jar sizes and flasks.\n"
              "remove\tRemoves a canner, jar size or flask.\n");
}

} // namespace
} // namespace barmkeep::test
