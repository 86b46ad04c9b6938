// What a person writes for a value, turned into what the wire takes.
//
// Text with units goes to the daemon as it is written, because only the daemon knows a good's
// measure; what can be judged here (numbers, words, dates, JSON) is, before anything is sent.
#pragma once

#include "daemon/client/option.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::barm {

/// What reading a value may need from outside; seams for tests.
struct ValueContext {
    std::function<Date()> today;             ///< the cellar's day; asked only for `today`, `+3d`
    std::function<std::string()> time_zone;  ///< the cellar's; asked only for `09:30`
    std::function<std::string()> read_stdin; ///< asked for a JSON value written as -
};

/// The value of one text for a schema that takes one: text, number, flag or JSON.  Throws
/// Error(params) without a pointer.
[[nodiscard]] json::value value_of(const json::object& schema, std::string_view text,
                                   const ValueContext& context);

/// Puts one text given for an option into the params: sets it, or adds it to a list that repeats.
/// A list of objects takes a JSON text, or `what=extract,amount=4 oz`.  Throws Error(params) with
/// the option's pointer.
void put_value(json::object& params, const Option& option, std::string_view text,
               const ValueContext& context);

/// The day a person means by `today`, `tomorrow`, `yesterday`, `+10d`, `-2d`, `+3w`; nothing for
/// any other text.
[[nodiscard]] std::optional<Date> relative_date(std::string_view text,
                                                const std::function<Date()>& today);

} // namespace barmkeep::barm
