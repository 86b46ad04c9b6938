#include "daemon/client/program.hpp"

int main(int argc, char** argv) {
    using namespace barmkeep::barm;
    const Outside outside = real_outside();
    return static_cast<int>(Program{outside, {argv + 1, argv + argc}}.run());
}
