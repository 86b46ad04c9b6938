#include "sdk/sheet/block.hpp"

#include "sdk/method/schema_words.hpp"
#include "sdk/method/structure.hpp"

#include <type_traits>

namespace barmkeep {
namespace sheet {
namespace {

// In the order of the alternatives of Block::content.
constexpr std::array<std::string_view, 10> kinds{"facts",   "table",   "steps", "chart", "clock",
                                                 "warning", "caution", "note",  "lines", "more"};
using Content = decltype(Block::content);
static_assert(std::variant_size_v<Content> == kinds.size() + 1);

template <class T>
std::optional<Block> read_content(const json::value& members, ParseContext& context) {
    auto content = Codec<T>::read(members, context);
    if (!content)
        return std::nullopt;
    return Block{std::move(*content)};
}

using ReadContent = std::optional<Block> (*)(const json::value&, ParseContext&);
template <std::size_t... Index>
constexpr std::array<ReadContent, sizeof...(Index)> readers(std::index_sequence<Index...>) {
    return {&read_content<std::variant_alternative_t<Index, Content>>...};
}

/// A schema as Codec makes it, with the kind in front of the members.
json::object with_kind(std::string_view kind, json::object schema) {
    json::object properties;
    properties.emplace("kind", json::object{{"type", "string"}, {"enum", json::array{kind}}});
    for (const auto& member : schema_at(schema, "properties"))
        properties.emplace(member.key(), member.value());
    schema["properties"] = std::move(properties);
    json::array required{"kind"};
    if (const auto* more = schema.if_contains("required"))
        for (const auto& name : more->as_array())
            required.push_back(name);
    schema["required"] = std::move(required);
    return schema;
}

template <std::size_t... Index>
json::array content_schemas(Direction direction, std::index_sequence<Index...>) {
    json::array all;
    (all.push_back(with_kind(kinds[Index],
                             Codec<std::variant_alternative_t<Index, Content>>::schema(direction))),
     ...);
    return all;
}

/// Of blocks within blocks the schema says no more than that: it would have no end.
json::object more_schema() {
    const json::object blocks{{"type", "array"},
                              {"items", json::object{{"type", "object"}}},
                              {"description", "The blocks."}};
    return with_kind("more",
                     {{"type", "object"},
                      {"properties", json::object{{"title", Codec<Text>::schema(Direction::sent)},
                                                  {"blocks", blocks}}},
                      {"required", json::array{"title", "blocks"}}});
}

} // namespace

bool Block::operator==(const Block& other) const {
    return content == other.content;
}

std::string_view kind_of(const Block& block) noexcept {
    const std::size_t index = block.content.index();
    return index < kinds.size() ? kinds.at(index) : std::string_view{};
}

} // namespace sheet

std::optional<sheet::Block> Codec<sheet::Block>::read(const json::value& value,
                                                      ParseContext& context) {
    using namespace sheet;
    static constexpr auto read_by_kind = readers(std::make_index_sequence<kinds.size()>{});
    const auto* object = value.if_object();
    if (object == nullptr) {
        if (!context.checks_rules())
            return Block{UnknownBlock{value}};
        context.fault("wrong_type", "A block is an object.");
        return std::nullopt;
    }
    const std::string kind = text_of(*object, "kind");
    const auto known = std::find(kinds.begin(), kinds.end(), kind);
    if (known == kinds.end())
        return Block{UnknownBlock{value}};
    json::object members = *object;
    members.erase("kind");
    const std::size_t faults_before = context.faults().size();
    auto block = read_by_kind.at(static_cast<std::size_t>(known - kinds.begin()))(members, context);
    if (!block && !context.checks_rules()) {
        context.forgive_since(faults_before);
        return Block{UnknownBlock{value}};
    }
    return block;
}

json::value Codec<sheet::Block>::write(const sheet::Block& block) {
    return std::visit(
        [&](const auto& content) -> json::value {
            using Content = std::remove_cvref_t<decltype(content)>;
            if constexpr (std::is_same_v<Content, sheet::UnknownBlock>) {
                return content.given;
            } else {
                json::object object{{"kind", json::value(kind_of(block))}};
                json::value members = Codec<Content>::write(content);
                for (auto& member : members.as_object())
                    object.emplace(member.key(), std::move(member.value()));
                return object;
            }
        },
        block.content);
}

json::object Codec<sheet::Block>::schema(Direction direction) {
    using namespace sheet;
    json::array all = content_schemas(direction, std::make_index_sequence<kinds.size() - 1>{});
    all.push_back(more_schema());
    all.push_back(json::object{{"type", "object"},
                               {"description", "A kind of a later version; it is passed over."}});
    return {{"anyOf", std::move(all)}};
}

} // namespace barmkeep
