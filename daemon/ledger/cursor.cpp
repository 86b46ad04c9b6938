#include "daemon/ledger/cursor.hpp"

#include "sdk/method/error.hpp"
#include "sdk/method/json.hpp"

#include <algorithm>
#include <boost/crc.hpp>
#include <cstdint>

namespace barmkeep::ledger {
namespace {

// RFC 4648, section 5: base 64 for names, without padding.
constexpr std::string_view letters =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
constexpr std::size_t check_bytes = 4;

std::string check_of(std::string_view list, std::string_view position) {
    boost::crc_32_type crc;
    crc.process_bytes(list.data(), list.size());
    crc.process_byte(0);
    crc.process_bytes(position.data(), position.size());
    std::string bytes;
    for (std::size_t i = 0; i < check_bytes; ++i)
        bytes += static_cast<char>(crc.checksum() >> (8 * i) & 0xff);
    return bytes;
}

std::string encoded(std::string_view bytes) {
    std::string text;
    std::uint32_t bits = 0;
    int count = 0;
    for (const char c : bytes) {
        bits = bits << 8 | static_cast<unsigned char>(c);
        for (count += 8; count >= 6; count -= 6)
            text += letters[bits >> (count - 6) & 63];
    }
    if (count > 0)
        text += letters[bits << (6 - count) & 63];
    return text;
}

std::string decoded(std::string_view text) {
    std::string bytes;
    std::uint32_t bits = 0;
    int count = 0;
    for (const char c : text) {
        const auto at = letters.find(c);
        if (at == std::string_view::npos)
            return {};
        bits = bits << 6 | static_cast<std::uint32_t>(at);
        count += 6;
        if (count >= 8) {
            count -= 8;
            bytes += static_cast<char>(bits >> count & 0xff);
        }
    }
    return bytes;
}

/// None for what no cursor of ours holds.
std::vector<std::string> parts_of(const std::string& position) {
    try {
        return json::value_to<std::vector<std::string>>(parse_json(position));
    } catch (const std::exception&) {
        return {};
    }
}

} // namespace

std::string cursor_of(std::string_view list, std::span<const std::optional<std::string>> place) {
    json::array parts;
    for (const auto& part : place)
        parts.emplace_back(part.value());
    const std::string position = write_json(parts);
    return encoded(check_of(list, position) + position);
}

void read_place(std::string_view list, std::string_view cursor,
                std::span<std::optional<std::string>> place) {
    const std::string bytes = decoded(cursor);
    const std::string position = bytes.size() > check_bytes ? bytes.substr(check_bytes) : "";
    const auto parts = encoded(check_of(list, position) + position) == cursor
                           ? parts_of(position)
                           : std::vector<std::string>{};
    if (parts.size() != place.size())
        throw Error(ErrorKind::params, "bad_cursor", "This cursor was not made for this list.",
                    "Give the `next` of the previous answer, or start without a cursor.",
                    "/cursor");
    std::ranges::copy(parts, place.begin());
}

} // namespace barmkeep::ledger
