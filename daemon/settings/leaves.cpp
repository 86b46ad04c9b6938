#include "daemon/settings/leaves.hpp"

#include "daemon/settings/settings.hpp"

#include <cctype>
#include <charconv>
#include <sstream>

namespace barmkeep::daemon {
namespace {

std::vector<Leaf> leaves_of_schema() {
    std::vector<Leaf> all;
    const json::object schema = Codec<Settings>::schema(Direction::taken);
    for (const auto& section : schema.at("properties").as_object()) {
        const auto* fields = section.value().as_object().if_contains("properties");
        if (fields == nullptr)
            continue; // [plugin.NAME]: each plugin knows its own
        for (const auto& field : fields->as_object())
            all.push_back({section.key(), field.key(),
                           std::string(field.value().at("description").as_string()),
                           field.value().as_object()});
    }
    return all;
}

} // namespace

std::string Leaf::variable() const {
    std::string upper = "BARMKEEP_" + section + "_" + field;
    for (char& c : upper)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return upper;
}

json::value Leaf::from_text(const std::string& text) const {
    const std::string_view type = schema.at("type").as_string();
    if (type == "integer") {
        std::int64_t number = 0;
        const auto end = std::from_chars(text.data(), text.data() + text.size(), number);
        if (end.ec == std::errc{} && end.ptr == text.data() + text.size())
            return number;
    }
    if (type == "boolean" && (text == "true" || text == "false"))
        return text == "true";
    if (type == "array") {
        json::array parts;
        std::istringstream in{text};
        for (std::string part; std::getline(in, part, ',');)
            parts.push_back(json::value(part));
        return parts;
    }
    return json::value(text); // the check of the whole says what is wrong with it
}

const std::vector<Leaf>& all_leaves() {
    static const std::vector<Leaf> leaves = leaves_of_schema();
    return leaves;
}

const Leaf* find_leaf(const std::string& name) {
    for (const auto& leaf : all_leaves())
        if (leaf.name() == name)
            return &leaf;
    return nullptr;
}

} // namespace barmkeep::daemon
