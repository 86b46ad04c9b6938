// What the tests of the process share.
#pragma once

#include "sdk/client/client.hpp"
#include "tests/system/daemon_under_test.hpp"

#include <fstream>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sstream>
#include <unistd.h>

namespace barmkeep::test {

using testing::HasSubstr;
using testing::Not;

/// The ledger's file and its log, byte by byte.
inline std::string bytes_of(const std::filesystem::path& ledger) {
    std::ostringstream all;
    for (const char* end : {"", "-wal"})
        if (std::ifstream in{ledger.string() + end, std::ios::binary}; in.peek() >= 0)
            all << end << in.rdbuf();
    return all.str();
}

/// A command as someone whom the modes of files bind, who root is not.
inline std::vector<std::string> bound_by_modes(std::vector<std::string> command) {
    if (::geteuid() == 0)
        command.insert(command.begin(),
                       {"/usr/bin/setpriv", "--bounding-set=-dac_override,-dac_read_search"});
    return command;
}

class ProcessTest : public testing::Test {
protected:
    client::Client client() const {
        client::ClientOptions options;
        options.socket = daemon.socket().string();
        return client::Client{options};
    }
    /// A daemon on other paths, run until it ends.
    static Finished other(const std::filesystem::path& ledger, const std::filesystem::path& socket,
                          const std::vector<std::string>& more = {}) {
        std::vector<std::string> command{BARMKEEPD_PROGRAM, "--config=/dev/null",
                                         "--set=ledger.file=" + ledger.string(),
                                         "--set=socket.path=" + socket.string()};
        command.insert(command.end(), more.begin(), more.end());
        return run(command);
    }
    ScratchFolder folder;
    DaemonUnderTest daemon{folder.path()};
};

} // namespace barmkeep::test
