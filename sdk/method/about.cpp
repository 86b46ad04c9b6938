#include "sdk/method/about.hpp"

namespace barmkeep {

json::object named_params(const json::value* params, const Description& method) {
    if (params == nullptr)
        return {};
    if (const auto* object = params->if_object())
        return *object;
    const auto* properties = method.params.if_contains("properties");
    static const json::object none;
    const json::object& known = properties != nullptr ? properties->get_object() : none;
    const auto& given = params->get_array();
    if (given.size() > known.size())
        throw Error(ErrorKind::params, "too_many",
                    method.name + " takes at most " + std::to_string(known.size()) +
                        " parameters; " + std::to_string(given.size()) + " were given.",
                    "Name the parameters, as in {\"name\": value}.");
    json::object named;
    auto name = known.begin();
    for (const auto& value : given) {
        named.emplace(name->key(), value);
        ++name;
    }
    return named;
}

} // namespace barmkeep
