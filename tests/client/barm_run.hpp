// A run of barm without a process: its words, its world, what it printed.
#pragma once

#include "daemon/client/outside.hpp"

#include <map>
#include <string>
#include <vector>

namespace barmkeep::test {

struct Ran {
    int code = 0;
    std::string out;
    std::string err;
};

/// The world of a run; by default no terminal, no environment, no files.
struct World {
    std::map<std::string, std::string, std::less<>> environment;
    std::map<std::string, std::string, std::less<>> files;
    std::string standard_input;
    bool out_is_terminal = false;
    bool err_is_terminal = false;
    bool has_utf8 = true;
    bool reads_stdout = true; ///< false: the other end of the pipe is closed
    int width = 80;
    int height = 1000;
    client::StopButton* button = nullptr; ///< stands for Ctrl-C
    std::string paged;                    ///< what went through the pager
};

[[nodiscard]] Ran run_barm(World& world, std::vector<std::string> words);

} // namespace barmkeep::test
