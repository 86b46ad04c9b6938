#include "daemon/client/option.hpp"

#include <algorithm>
#include <map>

namespace barmkeep::barm {
namespace {

void collect(const json::object& object_schema, const std::vector<std::string>& path,
             bool parents_required, std::vector<Option>& options) {
    for (const auto& property : properties_of(object_schema)) {
        if (!property.value().is_object())
            continue;
        const json::object& schema = property.value().get_object();
        Option option;
        option.path = path;
        option.path.emplace_back(property.key());
        for (const auto& part : option.path)
            option.whole_name += (option.whole_name.empty() ? "" : "-") + dashed(part);
        option.name = dashed(property.key());
        option.schema = schema;
        option.doc = text_of(schema, "description");
        option.shape = shape_of(schema);
        const bool required = parents_required && is_required(object_schema, property.key());
        option.is_required = required && !schema.contains("default");
        option.is_positional = path.empty() && is_true(schema, "x-positional");
        option.is_variadic = path.empty() && is_true(schema, "x-variadic");
        const auto inner = option.path;
        const bool is_record = option.shape == Shape::record;
        if (is_record)
            option.is_required = false; // its own members say what is wanted
        options.push_back(std::move(option));
        if (is_record)
            collect(schema, inner, required, options);
    }
}

} // namespace

std::string dashed(std::string_view name) {
    std::string text(name);
    std::replace(text.begin(), text.end(), '_', '-');
    return text;
}

std::string Option::pointer() const {
    std::string pointer;
    for (const auto& part : path)
        pointer += "/" + part;
    return pointer;
}

std::vector<Option> options_of(const json::object& params_schema) {
    std::vector<Option> options;
    collect(params_schema, {}, true, options);
    std::map<std::string, int> uses;
    for (const auto& option : options)
        ++uses[option.name];
    for (auto& option : options)
        if (option.path.size() > 1 && uses[option.name] > 1)
            option.name = option.whole_name;
    return options;
}

const Option* find_option(const std::vector<Option>& options, std::string_view name) {
    for (const auto& option : options)
        if (option.name == name || option.whole_name == name)
            return &option;
    return nullptr;
}

void set_at(json::object& params, const std::vector<std::string>& path, json::value value) {
    json::object* at = &params;
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        json::value& member = (*at)[path[i]];
        if (!member.is_object())
            member = json::object{};
        at = &member.get_object();
    }
    (*at)[path.back()] = std::move(value);
}

json::value* find_at(json::object& params, const std::vector<std::string>& path) {
    json::object* at = &params;
    for (std::size_t i = 0; i < path.size(); ++i) {
        json::value* member = at->if_contains(path[i]);
        if (member == nullptr || i + 1 == path.size())
            return member;
        if (!member->is_object())
            return nullptr;
        at = &member->get_object();
    }
    return nullptr;
}

} // namespace barmkeep::barm
