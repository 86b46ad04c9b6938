#include "sdk/method/field.hpp"

namespace barmkeep {

std::string_view detail::member_name(std::string_view signature) noexcept {
    signature.remove_prefix(signature.find("Member = ") + 9);
    signature = signature.substr(0, signature.find_first_of(";]"));
    return signature.substr(signature.rfind("::") + 2);
}

FieldList joined(const FieldList& first, const FieldList& second, const FieldList& third) {
    FieldList all = first;
    all.insert(all.end(), second.begin(), second.end());
    all.insert(all.end(), third.begin(), third.end());
    return all;
}

template struct detail::MemberOperations<bool>;
template struct detail::MemberOperations<std::optional<bool>>;
template struct detail::MemberOperations<std::int64_t>;
template struct detail::MemberOperations<std::optional<std::int64_t>>;
template struct detail::MemberOperations<double>;
template struct detail::MemberOperations<std::optional<double>>;
template struct detail::MemberOperations<std::string>;
template struct detail::MemberOperations<std::optional<std::string>>;
template struct detail::MemberOperations<std::vector<std::string>>;
template struct detail::MemberOperations<std::vector<double>>;
template struct detail::MemberOperations<json::object>;
template struct detail::MemberOperations<json::value>;
template struct detail::MemberOperations<std::optional<json::object>>;

} // namespace barmkeep
