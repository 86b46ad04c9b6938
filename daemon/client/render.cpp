#include "daemon/client/render.hpp"

#include "daemon/client/table.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

/// A member of an object beside its schema, in the schema's order; those that only a newer daemon
/// knows come last.
struct Member {
    std::string name;
    const json::value* value;
    const json::object* schema;
};

const json::object& no_schema() {
    static const json::object none;
    return none;
}

std::vector<Member> members_of(const json::object& object, const json::object& schema) {
    std::vector<Member> members;
    const auto& properties = properties_of(schema);
    for (const auto& property : properties)
        if (const auto* value = object.if_contains(property.key()))
            members.push_back(
                {property.key(), value,
                 property.value().is_object() ? &property.value().get_object() : &no_schema()});
    for (const auto& member : object)
        if (!properties.contains(member.key()))
            members.push_back({member.key(), &member.value(), &no_schema()});
    return members;
}

bool is_one_value(const json::object& schema) {
    return text_of(schema, "x-kind") == "amount" || is_range(schema);
}

/// An object that is shown as lines of its own, and not as one value.
bool is_nested(const Member& member) {
    return member.value->is_object() && !is_one_value(*member.schema) &&
           (shape_of(*member.schema) == Shape::record ||
            shape_of(*member.schema) == Shape::members);
}

bool is_list_of_records(const Member& member) {
    const auto* list = member.value->if_array();
    return list != nullptr && shape_of(*member.schema) == Shape::records &&
           !is_one_value(schema_at(*member.schema, "items"));
}

/// A column of a table: where its value is in an item.
struct Place {
    std::vector<std::string> path;
    const json::object* schema;
};

/// The fields of a record within a record are columns of their own: an object is no cell.
void add_places(const json::object& schema, const std::vector<std::string>& above,
                std::vector<Place>& places) {
    for (const auto& property : properties_of(schema)) {
        const json::object& own =
            property.value().is_object() ? property.value().get_object() : no_schema();
        auto path = above;
        path.emplace_back(property.key());
        if (shape_of(own) == Shape::record && !is_one_value(own))
            add_places(own, path, places);
        else
            places.push_back({std::move(path), &own});
    }
}

const json::value* value_at(const json::value& item, const std::vector<std::string>& path) {
    const json::value* at = &item;
    for (const auto& name : path) {
        at = at->is_object() ? at->get_object().if_contains(name) : nullptr;
        if (at == nullptr)
            return nullptr;
    }
    return at;
}

Table table_of(const json::array& list, const json::object& item_schema, const Style& style) {
    std::vector<Place> places;
    add_places(item_schema, {}, places);
    Table table;
    for (const auto& place : places)
        table.columns.push_back({label_of(place.path.back()), is_numeric(*place.schema)});
    for (const auto& item : list) {
        std::vector<std::string> row;
        for (const auto& place : places) {
            const auto* value = value_at(item, place.path);
            row.push_back(value != nullptr ? value_text(*value, *place.schema, style) : "");
        }
        table.rows.push_back(std::move(row));
    }
    if (!style.is_plain) // a program counts on its columns
        table.drop_empty_columns();
    return table;
}

std::string object_lines(const json::object& object, const json::object& schema, const Style& style,
                         std::size_t indent);

/// A list of records that themselves hold lists is shown one record after the other, because a cell
/// has no room for a list.
bool has_inner_lists(const json::array& list, const json::object& item_schema) {
    for (const auto& item : list)
        if (const auto* object = item.if_object())
            for (const auto& member : members_of(*object, item_schema))
                if (is_list_of_records(member) && !member.value->get_array().empty())
                    return true;
    return false;
}

std::string list_lines(const json::array& list, const json::object& item_schema, const Style& style,
                       std::size_t indent) {
    if (style.is_plain || !has_inner_lists(list, item_schema))
        return table_text(table_of(list, item_schema, style), style, indent);
    std::string text;
    for (const auto& item : list)
        text += (text.empty() ? "" : "\n") +
                object_lines(item.get_object(), item_schema, style, indent);
    return text;
}

std::string section(const Member& member, const Style& style, std::size_t indent) {
    const std::string heading =
        std::string(indent, ' ') + style.heading(label_of(member.name)) + '\n';
    const std::size_t inner = style.is_plain ? 0 : indent + 2;
    if (is_nested(member)) {
        const std::string lines =
            object_lines(member.value->get_object(), *member.schema, style, inner);
        return lines.empty() ? "" : heading + lines;
    }
    const auto& list = member.value->get_array();
    return list.empty()
               ? ""
               : heading + list_lines(list, schema_at(*member.schema, "items"), style, inner);
}

bool has_sentences(const json::array& list) {
    return std::any_of(list.begin(), list.end(), [](const json::value& item) {
        return item.is_string() && item.get_string().ends_with('.');
    });
}

/// Sentences stand under each other, because in one line nobody could separate them.
void add_lines(Record& record, const Member& member, const Style& style) {
    const auto* list = member.value->if_array();
    if (style.is_plain || list == nullptr || !has_sentences(*list)) {
        record.lines.emplace_back(label_of(member.name),
                                  value_text(*member.value, *member.schema, style));
        return;
    }
    std::string label = label_of(member.name);
    for (const auto& item : *list)
        record.lines.emplace_back(std::exchange(label, ""),
                                  value_text(item, schema_at(*member.schema, "items"), style));
}

/// A record of nothing but texts: what is wrong, and what to do now.
bool is_notice(const Member& member) {
    const auto* object = member.value->if_object();
    return object != nullptr && is_nested(member) &&
           std::all_of(object->begin(), object->end(),
                       [](const auto& inner) { return inner.value().is_string(); });
}

std::string object_lines(const json::object& object, const json::object& schema, const Style& style,
                         std::size_t indent) {
    Record record;
    std::string notices; // with which a result begins stand before all else
    std::string sections;
    for (const auto& member : members_of(object, schema))
        if (record.lines.empty() && is_notice(member))
            notices += section(member, style, indent);
        else if (is_nested(member) || is_list_of_records(member))
            sections += section(member, style, indent);
        else
            add_lines(record, member, style);
    return notices + record_text(record, style, indent) + sections;
}

/// The list, where a result is nothing but a list (and the cursor of its next page).
const Member* only_list(const std::vector<Member>& members) {
    const Member* list = nullptr;
    for (const auto& member : members) {
        if (member.name == "next")
            continue;
        if (list != nullptr || !is_list_of_records(member))
            return nullptr;
        list = &member;
    }
    return list;
}

Rendered render_object(const json::object& object, const json::object& schema, const Style& style) {
    Rendered rendered;
    auto members = members_of(object, schema);
    if (const auto* next = object.if_contains("next"); next != nullptr && next->is_string()) {
        rendered.notes = fmt::format("There is more: add --cursor {}\n",
                                     printable(std::string(next->get_string())));
        std::erase_if(members, [](const Member& member) { return member.name == "next"; });
    }
    if (const auto* list = only_list(members)) {
        const auto& items = list->value->get_array();
        if (items.empty())
            rendered.notes += "Nothing to show.\n";
        else
            rendered.out = list_lines(items, schema_at(*list->schema, "items"), style, 0);
        return rendered;
    }
    if (!members.empty() && is_list_of_records(members.front()) &&
        members.front().value->get_array().empty())
        rendered.notes += fmt::format("No {}.\n", label_of(members.front().name));
    json::object shown = object;
    shown.erase("next");
    rendered.out = object_lines(shown, schema, style, 0);
    if (rendered.out.empty())
        rendered.notes += object.empty() ? "Done.\n" : "Nothing to show.\n";
    return rendered;
}

} // namespace

Rendered render(const json::value& result, const json::object& schema, const Style& style) {
    if (const auto* object = result.if_object(); object != nullptr && !is_one_value(schema))
        return render_object(*object, schema, style);
    return {value_text(result, schema, style) + '\n', ""};
}

} // namespace barmkeep::barm
