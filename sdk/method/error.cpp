#include "sdk/method/error.hpp"

#include "sdk/method/schema_words.hpp"

#include <array>
#include <utility>

namespace barmkeep {
namespace {

constexpr std::array<std::pair<ErrorKind, int>, 13> codes{{
    {ErrorKind::text, -32700},
    {ErrorKind::request, -32600},
    {ErrorKind::method_unknown, -32601},
    {ErrorKind::params, -32602},
    {ErrorKind::internal, -32603},
    {ErrorKind::cancelled, -32000},
    {ErrorKind::busy, -32001},
    {ErrorKind::unknown_outcome, -32002},
    {ErrorKind::unavailable, -32003},
    {ErrorKind::not_found, 1},
    {ErrorKind::not_enough, 2},
    {ErrorKind::conflict, 3},
    {ErrorKind::refused, 4},
}};

std::string joined_messages(const std::vector<FieldError>& faults) {
    std::string all;
    for (const auto& fault : faults) {
        if (!all.empty())
            all += " "; // each is a sentence
        all += fault.message;
    }
    return all;
}

} // namespace

int code_of(ErrorKind kind) noexcept {
    for (const auto& [known, code] : codes)
        if (known == kind)
            return code;
    return -32603;
}

ErrorKind kind_of(int code) noexcept {
    for (const auto& [kind, known] : codes)
        if (known == code)
            return kind;
    return ErrorKind::internal;
}

Error::Error(ErrorKind kind, std::string_view reason, std::string_view message,
             std::string_view hint, std::string_view pointer)
    : Error(kind, {FieldError{std::string(pointer), std::string(reason), std::string(message),
                              std::string(hint)}}) {}

Error::Error(ErrorKind kind, std::vector<FieldError> faults)
    : std::runtime_error(joined_messages(faults)), kind_{kind}, faults_{std::move(faults)} {}

json::object Error::to_json() const {
    json::array listed;
    for (const auto& fault : faults_)
        listed.push_back(json::object{{"reason", fault.reason},
                                      {"pointer", fault.pointer},
                                      {"message", fault.message},
                                      {"hint", fault.hint}});
    const FieldError& first = faults_.front();
    return {{"code", code_of(kind_)},
            {"message", what()},
            {"data", json::object{{"reason", first.reason},
                                  {"pointer", first.pointer},
                                  {"hint", first.hint},
                                  {"faults", std::move(listed)}}}};
}

Error Error::from_json(const json::value& error) {
    const auto* object = error.if_object();
    if (object == nullptr)
        return {ErrorKind::internal, "malformed_error",
                "The other side sent an error in an unknown form."};
    const auto* code = object->if_contains("code");
    const auto kind = code != nullptr && code->is_int64()
                          ? kind_of(static_cast<int>(code->get_int64()))
                          : ErrorKind::internal;
    std::vector<FieldError> faults;
    const auto* data = object->if_contains("data");
    const auto* data_object = data != nullptr ? data->if_object() : nullptr;
    const auto* listed = data_object != nullptr ? data_object->if_contains("faults") : nullptr;
    if (listed != nullptr && listed->is_array())
        for (const auto& one : listed->get_array())
            if (const auto* fault = one.if_object())
                faults.push_back({text_of(*fault, "pointer"), text_of(*fault, "reason"),
                                  text_of(*fault, "message"), text_of(*fault, "hint")});
    if (faults.empty())
        faults.push_back({"", "unspecified", text_of(*object, "message"), ""});
    return {kind, std::move(faults)};
}

Error error_of(const brewing::OutOfRange& fault, std::string_view pointer) {
    return {ErrorKind::params, "out_of_range", fault.finding(), fault.advice(), pointer};
}

} // namespace barmkeep
