#include "sdk/sheet/generic.hpp"

#include "sdk/method/schema_words.hpp"
#include "sdk/sheet/builder.hpp"
#include "sdk/sheet/generic_value.hpp"

#include <algorithm>

namespace barmkeep::sheet {
namespace {

/// A member of an object beside its schema.
struct Member {
    std::string name;
    const json::value* value;
    const json::object* schema;
};

/// In the order of the schema; those that only a newer program knows come last.
std::vector<Member> members_of(const json::object& object, const json::object& schema) {
    const json::object& properties = schema_at(schema, "properties");
    const json::object& others = schema_at(schema, "additionalProperties");
    std::vector<Member> members;
    for (const auto& property : properties)
        if (const auto* value = object.if_contains(property.key()))
            members.push_back({property.key(), value, &schema_at(properties, property.key())});
    for (const auto& member : object)
        if (!properties.contains(member.key()))
            members.push_back({member.key(), &member.value(), &others});
    return members;
}

bool is_record(const json::value& value, const json::object& schema) {
    return value.is_object() && !is_one_value(value, schema);
}

/// A list whose items are all objects with fields; an empty one is, if its schema says so.
bool is_list_of_records(const json::value& value, const json::object& schema) {
    const auto* list = value.if_array();
    const json::object& items = schema_at(schema, "items");
    if (list == nullptr)
        return false;
    if (list->empty())
        return items.contains("properties") && text_of(items, "x-kind") != "amount";
    return std::all_of(list->begin(), list->end(),
                       [&](const json::value& item) { return is_record(item, items); });
}

bool is_list_of_sentences(const json::value& value) {
    const auto* list = value.if_array();
    return list != nullptr && std::any_of(list->begin(), list->end(), [](const json::value& item) {
               return item.is_string() && item.get_string().ends_with('.');
           });
}

/// What a cell cannot hold.
bool has_inner_lists(const json::array& list, const json::object& items) {
    return std::any_of(list.begin(), list.end(), [&](const json::value& item) {
        const auto members = members_of(item.get_object(), items);
        return std::any_of(members.begin(), members.end(), [](const Member& member) {
            return is_list_of_records(*member.value, *member.schema) &&
                   !member.value->get_array().empty();
        });
    });
}

/// A column of a table: where its value is in an item.
struct Place {
    std::vector<std::string> path;
    json::object schema;
    bool operator==(const Place& other) const { return path == other.path; }
};

/// What a person can read of a table, and what a made-up result may cost.
constexpr std::size_t columns_max = 24;
constexpr std::size_t rows_max = 500;
constexpr std::size_t inner_records_max = 100;

/// The fields of a record within a record are columns of their own: an object is no cell.
void add_places(const json::object& item, const json::object& schema,
                const std::vector<std::string>& above, std::vector<Place>& places) {
    for (const Member& member : members_of(item, schema)) {
        if (places.size() >= columns_max)
            return;
        auto path = above;
        path.push_back(member.name);
        if (is_record(*member.value, *member.schema)) {
            add_places(member.value->get_object(), *member.schema, path, places);
            continue;
        }
        Place place{std::move(path), *member.schema};
        if (std::find(places.begin(), places.end(), place) == places.end())
            places.push_back(std::move(place));
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

/// A column of yes and no says more without the no.
Text cell_text(const json::value& item, const Place& place) {
    const auto* value = value_at(item, place.path);
    if (value == nullptr || *value == false)
        return {};
    return generic_text(*value, place.schema, place.path.back());
}

/// Never left out on a narrow screen.
bool says_whether_usable(std::string_view field) {
    return field == "holds" || field == "released" || field == "stops" || field == "warnings";
}

std::vector<Column> columns_of(const std::vector<Place>& places) {
    constexpr std::size_t always = 3;
    constexpr std::size_t mostly = 6;
    std::vector<Column> columns;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const auto& path = places[i].path;
        const bool is_twice = std::count_if(places.begin(), places.end(), [&](const Place& other) {
                                  return other.path.back() == path.back();
                              }) > 1;
        std::string label = words_of(path.back());
        if (is_twice && path.size() > 1)
            label.insert(0, words_of(path[path.size() - 2]) + " ");
        columns.push_back(column(std::move(label),
                                 is_figure(places[i].schema) ? Align::right : Align::left,
                                 i < always || says_whether_usable(path.back()) ? 1
                                 : i < mostly                                   ? 2
                                                                                : 3));
    }
    return columns;
}

class Maker {
public:
    explicit Maker(SheetBuilder& into) : into_{into} {}

    void object(const json::object& object, const json::object& schema, const std::string& title) {
        const auto members = members_of(object, schema);
        std::vector<Fact> facts;
        for (const Member& member : members)
            if (!has_own_block(member))
                facts.push_back({words_of(member.name),
                                 generic_text(*member.value, *member.schema, member.name)});
        into_.facts(std::move(facts), title);
        for (const Member& member : members)
            if (has_own_block(member))
                block(member, title);
    }

private:
    static bool has_own_block(const Member& member) {
        return is_record(*member.value, *member.schema) ||
               is_list_of_records(*member.value, *member.schema) ||
               is_list_of_sentences(*member.value) ||
               (member.name == "warnings" && member.value->is_array());
    }

    void block(const Member& member, const std::string& above) {
        const std::string own = words_of(member.name);
        const std::string title = above.empty() || own.empty() ? above + own : above + ": " + own;
        const json::object& items = schema_at(*member.schema, "items");
        if (is_record(*member.value, *member.schema)) {
            object(member.value->get_object(), *member.schema, title);
            return;
        }
        const json::array& list = member.value->get_array();
        if (member.name == "cautions" && add_cautions(list))
            return;
        if (is_list_of_records(*member.value, *member.schema)) {
            records(list, items, title);
            return;
        }
        std::vector<Text> lines;
        for (const auto& item : list)
            lines.push_back(generic_text(item, items, member.name));
        if (member.name != "warnings") {
            into_.lines(std::move(lines), title);
            return;
        }
        for (Text& line : lines)
            into_.add(Warning{std::move(line), "", Severity::warning, {}});
    }

    /// Safety texts are counted in one line, as in any sheet; false if they are none.
    bool add_cautions(const json::array& list) {
        const bool are_cautions =
            std::all_of(list.begin(), list.end(), [](const json::value& item) {
                return item.is_object() && !text_of(item.get_object(), "text").empty();
            });
        if (are_cautions)
            for (const auto& item : list)
                into_.caution(text_of(item.get_object(), "key"),
                              text_of(item.get_object(), "text"));
        return are_cautions;
    }

    void records(const json::array& list, const json::object& items, const std::string& title) {
        if (has_inner_lists(list, items)) {
            std::size_t number = 0;
            for (const auto& item : list) {
                if (number == inner_records_max)
                    return note_rest(list.size() - number);
                object(item.get_object(), items, numbered(title, ++number));
            }
            return;
        }
        std::vector<Place> places;
        for (const auto& item : list)
            add_places(item.get_object(), items, {}, places);
        Table table{columns_of(places), {}, title};
        for (const auto& item : list) {
            if (table.rows.size() == rows_max)
                break;
            Row row;
            for (const Place& place : places)
                row.cells.push_back(cell_text(item, place));
            table.rows.push_back(std::move(row));
        }
        const std::size_t shown = table.rows.size();
        into_.table(std::move(table));
        if (list.size() > shown)
            note_rest(list.size() - shown);
    }

    void note_rest(std::size_t count) {
        into_.note("And ", number(static_cast<double>(count)), " more; `--json` has them all.");
    }

    static std::string numbered(const std::string& title, std::size_t number) {
        return (title.empty() ? "" : title + " ") + std::to_string(number);
    }

    SheetBuilder& into_;
};

/// The list, where a result is nothing but a list and the cursor of its next page: it needs no
/// heading of its own.
const Member* only_list(const std::vector<Member>& members) {
    const Member* list = nullptr;
    for (const Member& member : members) {
        if (member.name == "next")
            continue;
        if (list != nullptr || !is_list_of_records(*member.value, *member.schema))
            return nullptr;
        list = &member;
    }
    return list;
}

/// Advice that is not given needs no words; of anything else a person wants to know that there is
/// none.
bool is_advice(std::string_view name) {
    return name == "warnings" || name == "cautions" || name == "notes";
}

/// An empty list of the result itself says so; one deeper inside is left out.
void say_what_is_empty(SheetBuilder& builder, const std::vector<Member>& members) {
    for (const Member& member : members)
        if (is_list_of_records(*member.value, *member.schema) &&
            member.value->get_array().empty() && !is_advice(member.name))
            builder.note("No ", words_of(member.name), ".");
}

void add_result(SheetBuilder& builder, const json::object& result, const json::object& schema) {
    json::object shown = result;
    const std::string next = text_of(result, "next");
    if (!next.empty())
        shown.erase("next");
    const auto members = members_of(shown, schema);
    if (const Member* list = only_list(members);
        list != nullptr && !list->value->get_array().empty()) {
        // As the only member without a name, so that the table stands without a heading.
        const json::object unnamed{{"", *list->value}};
        const json::object unnamed_schema{{"properties", json::object{{"", *list->schema}}}};
        Maker{builder}.object(unnamed, unnamed_schema, "");
    } else {
        Maker{builder}.object(shown, schema, "");
        say_what_is_empty(builder, members);
    }
    if (!next.empty())
        builder.note("There is more: the next page has the cursor ", next, ".");
}

/// What the method does, if its doc says so shortly; else its noun and verb.
std::string title_of(const Description& method) {
    constexpr std::size_t longest = 60;
    std::size_t stop = method.doc.find(". ");
    if (stop == std::string::npos)
        stop = method.doc.ends_with('.') ? method.doc.size() - 1 : method.doc.size();
    if (stop > 0 && stop <= longest)
        return method.doc.substr(0, stop);
    std::string title = words_of(method.name);
    std::replace(title.begin(), title.end(), '.', ' ');
    if (!title.empty() && title[0] >= 'a' && title[0] <= 'z')
        title[0] = static_cast<char>(title[0] - 'a' + 'A');
    return title;
}

} // namespace

Sheet generic_sheet(Text title, const json::value& result, const json::object& result_schema) {
    SheetBuilder builder{title};
    if (is_record(result, result_schema)) {
        add_result(builder, result.get_object(), result_schema);
    } else if (is_list_of_records(result, result_schema)) {
        add_result(builder, {{"items", result}},
                   {{"properties", json::object{{"items", result_schema}}}});
    } else {
        builder.lead(generic_text(result, result_schema, ""));
    }
    if (builder.sheet().blocks.empty() && builder.sheet().lead.empty())
        builder.lead("Nothing to show.");
    return builder;
}

Sheet generic_sheet(const Description& method, const json::value& result) {
    Sheet sheet = generic_sheet(Text(title_of(method)), result, method.result);
    const auto* object = result.if_object();
    if (method.effect == Effect::writes && object != nullptr && object->empty())
        sheet.lead = "Done.";
    return sheet;
}

} // namespace barmkeep::sheet
