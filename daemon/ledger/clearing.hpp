// Emptying the optional fields that a change names (sdk/contract/clearing.hpp).
#pragma once

#include "sdk/contract/good.hpp"

namespace barmkeep::ledger {

/// Throws Error(params, "not_clearable") for a name that is neither in `fields` nor a fact.
void check_clear(const std::vector<std::string>& clear, const std::vector<std::string>& fields,
                 bool has_facts);
/// Whether a field is to be emptied.
[[nodiscard]] bool is_cleared(const std::vector<std::string>& clear, std::string_view field);

/// Throws Error(params, "given_and_cleared") for a field that is both to be set and to be emptied.
void refuse_both(bool is_given, std::string_view field, const std::vector<std::string>& clear);
template <class T>
void refuse_both(const T& given, const std::vector<std::string>& clear) {
    const T fresh;
    for (const Field& field : fields_of<T>())
        if (field.type->is_absent(field.in(&fresh))) // the others cannot be emptied at all
            refuse_both(!field.type->is_absent(field.in(&given)), field.name, clear);
}

/// Empties the optional fields of `object` that are named.  Throws as check_clear does, before
/// anything is changed.
template <class T>
void empty_fields(T& object, const std::vector<std::string>& clear) {
    const T fresh;
    std::vector<std::string> optional;
    for (const Field& field : fields_of<T>())
        if (field.type->is_absent(field.in(&fresh)))
            optional.emplace_back(field.name);
    check_clear(clear, optional, false);
    for (const Field& field : fields_of<T>())
        if (is_cleared(clear, field.name))
            field.type->assign(field.in(&object), field.in(&fresh));
}

} // namespace barmkeep::ledger
