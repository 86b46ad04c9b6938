// Emptying optional fields: a change that leaves a field out keeps it, so what is to be emptied is
// named.
//
//     {"lot": "J6Y", "clear": ["best_by", "facts.gravity"], "reason": "measured the wrong jar"}
#pragma once

#include "sdk/method/structure.hpp"

namespace barmkeep::contract {

/// The field of a change that names what it empties; `example` is one such name.  A name that is no
/// optional field of what is changed is refused: Error(params, "not_clearable").
template <auto Member>
[[nodiscard]] Field clear_field(std::string_view example) {
    return field<Member>(
               "Optional fields to empty, by name. Write a fact as facts.NAME. None if left out.")
        .defaulted()
        .length(0, 30)
        .like(example);
}

} // namespace barmkeep::contract
