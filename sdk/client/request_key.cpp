#include "sdk/client/request_key.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string_view>

namespace barmkeep::client {
namespace {

constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyz234567";
constexpr std::size_t words_in_key = 4; // of 32 bits

} // namespace

std::string new_request_key() {
    std::random_device source;
    std::string key;
    std::uint64_t bits = 0;
    int held = 0;
    for (std::size_t word = 0; word < words_in_key; ++word) {
        bits = bits << 32 | static_cast<std::uint32_t>(source());
        held += 32;
        for (; held >= 5; held -= 5)
            key += letters[bits >> (held - 5) & 31];
    }
    key += letters[bits << (5 - held) & 31]; // the three bits left over
    return key;
}

} // namespace barmkeep::client
