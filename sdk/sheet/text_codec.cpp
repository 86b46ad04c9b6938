// Texts and typed values in JSON.
#include "sdk/sheet/text.hpp"

#include "sdk/method/structure.hpp"

#include <cstdlib>
#include <fmt/format.h>

namespace barmkeep {
namespace {

using namespace sheet;

/// The two forms that a quantity's member may have: a number, or an object like this.
struct WireRange {
    double low = 0;
    std::optional<double> likely;
    double high = 0;
    static FieldList fields(auto) {
        return {field<&WireRange::low>("The low end."),
                field<&WireRange::likely>("The likely figure."),
                field<&WireRange::high>("The high end.")};
    }
};

/// Nine figures: more than anything here is worth, and no "0.30000000000000004" on the wire.
double without_noise(double number) {
    return std::strtod(fmt::format("{:.9g}", number).c_str(), nullptr);
}

template <class T>
std::optional<Value> read_one(const json::value& value, ParseContext& context) {
    auto read = Codec<T>::read(value, context);
    if (!read)
        return std::nullopt;
    return Value{std::move(*read)};
}

std::optional<Value> read_quantity(QuantityKind kind, const json::value& value,
                                   ParseContext& context) {
    if (!value.is_object()) {
        const auto number = Codec<double>::read(value, context);
        return number ? std::optional<Value>{Quantity{kind, *number}} : std::nullopt;
    }
    if (kind == QuantityKind::number && value.get_object().contains("number"))
        return read_one<Number>(value, context);
    const auto range = Codec<WireRange>::read(value, context);
    if (!range)
        return std::nullopt;
    return Value{QuantityRange{kind, range->low, range->likely, range->high}};
}

std::optional<Value> read_money(const json::value& value, ParseContext& context) {
    if (value.is_object())
        return read_one<Sum>(value, context);
    const auto sum = Codec<Money>::read(value, context);
    return sum ? std::optional<Value>{Sum{*sum, {}}} : std::nullopt;
}

std::optional<Value> read_source(const json::value& value, ParseContext& context) {
    auto key = Codec<std::string>::read(value, context);
    return key ? std::optional<Value>{Source{std::move(*key)}} : std::nullopt;
}

/// One typed value by the name of its member.
struct ValueName {
    std::string_view name;
    std::optional<Value> (*read)(const json::value& value, ParseContext& context);
};
constexpr std::array value_names{
    ValueName{"amount", &read_one<Amount>},   ValueName{"money", &read_money},
    ValueName{"day", &read_one<Date>},        ValueName{"instant", &read_one<Instant>},
    ValueName{"count", &read_one<Count>},     ValueName{"lot", &read_one<LotCode>},
    ValueName{"command", &read_one<Command>}, ValueName{"source", &read_source}};

/// Nothing where no fault was noted: the name is not known.
std::optional<Value> read_named(std::string_view name, const json::value& value,
                                ParseContext& context) {
    if (const auto kind = from_string<QuantityKind>(name))
        return read_quantity(*kind, value, context);
    for (const ValueName& known : value_names)
        if (known.name == name)
            return known.read(value, context);
    return std::nullopt;
}

std::optional<Run> read_object(const json::object& object, ParseContext& context) {
    const std::size_t faults_before = context.faults().size();
    if (object.size() == 1) {
        const auto& member = *object.begin();
        const ParseContext::Step step{context, member.key()};
        auto value = read_named(member.key(), member.value(), context);
        if (value) {
            Run run;
            run.value = std::move(*value);
            return run;
        }
    }
    if (context.faults().size() > faults_before) {
        if (context.checks_rules())
            return std::nullopt;
        context.forgive_since(faults_before);
    }
    return Run{UnknownValue{object}};
}

struct Writer {
    json::value operator()(const std::string& plain) const { return json::value(plain); }
    json::value operator()(const Amount& amount) const { return named("amount", to_json(amount)); }
    json::value operator()(const Quantity& measured) const {
        return named(to_string(measured.kind), without_noise(measured.number));
    }
    json::value operator()(const QuantityRange& measured) const {
        json::object ends{{"low", without_noise(measured.low)}};
        if (measured.likely)
            ends["likely"] = without_noise(*measured.likely);
        ends["high"] = without_noise(measured.high);
        return named(to_string(measured.kind), std::move(ends));
    }
    json::value operator()(const Sum& sum) const { return named("money", to_json(sum)); }
    json::value operator()(const Date& day) const { return named("day", to_json(day)); }
    json::value operator()(const Instant& instant) const {
        return named("instant", to_json(instant));
    }
    json::value operator()(const Count& counted) const { return named("count", to_json(counted)); }
    json::value operator()(const LotCode& code) const { return named("lot", to_json(code)); }
    json::value operator()(const Number& plain) const { return named("number", to_json(plain)); }
    json::value operator()(const Command& call) const { return named("command", to_json(call)); }
    json::value operator()(const Source& key) const {
        return named("source", json::value(key.key));
    }
    json::value operator()(const UnknownValue& unknown) const { return unknown.given; }

    static json::value named(std::string_view name, json::value value) {
        json::object object;
        object.emplace(name, std::move(value));
        return object;
    }
};

json::object value_properties(Direction direction) {
    json::object properties;
    const json::object number{{"type", "number"}};
    for (const auto& kind : enum_names(QuantityKind{}))
        properties[kind.text] =
            json::object{{"anyOf", json::array{number, Codec<WireRange>::schema(direction)}}};
    properties["amount"] = Codec<Amount>::schema(direction);
    properties["money"] = Codec<Sum>::schema(direction);
    properties["day"] = Codec<Date>::schema(direction);
    properties["instant"] = Codec<Instant>::schema(direction);
    properties["count"] = Codec<Count>::schema(direction);
    properties["lot"] = Codec<LotCode>::schema(direction);
    properties["command"] = Codec<Command>::schema(direction);
    properties["source"] = json::object{{"type", "string"}};
    return properties;
}

} // namespace

std::optional<Run> Codec<Run>::read(const json::value& value, ParseContext& context) {
    if (const auto* object = value.if_object())
        return read_object(*object, context);
    if (value.is_string()) {
        auto plain = Codec<std::string>::read(value, context);
        return plain ? std::optional<Run>{Run{std::move(*plain)}} : std::nullopt;
    }
    if (!context.checks_rules()) // a newer program's, perhaps
        return Run{UnknownValue{{{"value", value}}}};
    context.fault("wrong_type", "A text or a typed value is wanted here.",
                  "Write a number with its meaning, as in {\"volume\": 0.5}.");
    return std::nullopt;
}

json::value Codec<Run>::write(const Run& run) {
    return std::visit(Writer{}, run.value);
}

json::object Codec<Run>::schema(Direction direction) {
    json::object typed{{"type", "object"},
                       {"properties", value_properties(direction)},
                       {"description", "A typed value: an object with one member."},
                       {"minProperties", 1},
                       {"maxProperties", 1}};
    return {{"anyOf", json::array{json::object{{"type", "string"}}, std::move(typed)}}};
}

std::optional<Text> Codec<Text>::read(const json::value& value, ParseContext& context) {
    Text text;
    if (value.is_array()) {
        auto runs = Codec<std::vector<Run>>::read(value, context);
        if (!runs)
            return std::nullopt;
        text.runs = std::move(*runs);
        return text;
    }
    auto run = Codec<Run>::read(value, context);
    if (!run)
        return std::nullopt;
    const auto* plain = std::get_if<std::string>(&run->value);
    if (plain == nullptr || !plain->empty())
        text.runs.push_back(std::move(*run));
    return text;
}

json::value Codec<Text>::write(const Text& text) {
    if (text.runs.empty())
        return json::value("");
    if (text.runs.size() == 1 && std::holds_alternative<std::string>(text.runs.front().value))
        return Codec<Run>::write(text.runs.front());
    return Codec<std::vector<Run>>::write(text.runs);
}

json::object Codec<Text>::schema(Direction direction) {
    json::object list{{"type", "array"}, {"items", Codec<Run>::schema(direction)}};
    return {{"x-kind", "sheet_text"},
            {"anyOf", json::array{json::object{{"type", "string"}}, std::move(list)}}};
}

template struct detail::MemberOperations<sheet::Text>;
template struct detail::MemberOperations<std::optional<sheet::Text>>;
template struct detail::MemberOperations<std::vector<sheet::Text>>;

} // namespace barmkeep
