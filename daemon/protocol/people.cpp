#include "daemon/protocol/people.hpp"

#include <grp.h>
#include <pwd.h>

#include <cerrno>
#include <charconv>
#include <vector>

namespace barmkeep::protocol {
namespace {

/// Runs one of the get...r functions with room that grows until the entry fits.
template <class Record, class Ask>
std::optional<Record> look_up(std::vector<char>& room, Ask ask) {
    for (room.resize(1024); room.size() <= 1 << 20; room.resize(room.size() * 4)) {
        Record record{};
        Record* found = nullptr;
        const int error = ask(&record, room.data(), room.size(), &found);
        if (error == ERANGE)
            continue;
        return found != nullptr ? std::optional{record} : std::nullopt;
    }
    return std::nullopt;
}

std::optional<unsigned> as_number(const std::string& text) {
    unsigned number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size())
        return std::nullopt;
    return number;
}

} // namespace

std::optional<std::string> user_name(uid_t uid) {
    std::vector<char> room;
    const auto entry = look_up<passwd>(room, [&](auto* into, char* text, auto size, auto** found) {
        return ::getpwuid_r(uid, into, text, size, found);
    });
    return entry ? std::optional<std::string>{entry->pw_name} : std::nullopt;
}

std::optional<uid_t> user_number(const std::string& name) {
    if (const auto number = as_number(name))
        return number;
    std::vector<char> room;
    const auto entry = look_up<passwd>(room, [&](auto* into, char* text, auto size, auto** found) {
        return ::getpwnam_r(name.c_str(), into, text, size, found);
    });
    return entry ? std::optional{entry->pw_uid} : std::nullopt;
}

std::optional<gid_t> group_number(const std::string& name) {
    if (const auto number = as_number(name))
        return number;
    std::vector<char> room;
    const auto entry = look_up<group>(room, [&](auto* into, char* text, auto size, auto** found) {
        return ::getgrnam_r(name.c_str(), into, text, size, found);
    });
    return entry ? std::optional{entry->gr_gid} : std::nullopt;
}

} // namespace barmkeep::protocol
