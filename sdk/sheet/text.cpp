#include "sdk/sheet/text.hpp"

#include <algorithm>

namespace barmkeep::sheet {

Quantity quantity(brewing::Mass mass) {
    return {QuantityKind::mass, mass.in(brewing::gram)};
}
Quantity quantity(brewing::Volume volume) {
    return {QuantityKind::volume, volume.in(brewing::litre)};
}
Quantity quantity(brewing::Temperature temperature) {
    return {QuantityKind::temperature, temperature.celsius()};
}
Quantity quantity(brewing::TemperatureDifference difference) {
    return {QuantityKind::temperature_difference, difference.in(brewing::kelvin)};
}
Quantity quantity(brewing::GaugePressure pressure) {
    return {QuantityKind::pressure, pressure.in(brewing::kilopascal_gauge)};
}
Quantity quantity(brewing::AbsolutePressure pressure) {
    return {QuantityKind::absolute_pressure, pressure.in(brewing::kilopascal)};
}
Quantity quantity(brewing::Length length) {
    return {QuantityKind::length, length.in(brewing::metre)};
}
Quantity quantity(brewing::Energy energy) {
    return {QuantityKind::energy, energy.in(brewing::kilojoule)};
}
Quantity quantity(brewing::Cells cells) {
    return {QuantityKind::cells, cells.in(brewing::billion_cells)};
}
Quantity quantity(brewing::Gravity gravity) {
    return {QuantityKind::gravity, gravity.sg()};
}
Quantity quantity(Seconds duration) {
    return {QuantityKind::duration, static_cast<double>(duration.count())};
}

Count count(std::int64_t number, std::string one, std::string many) {
    if (many.empty())
        many = one + "s";
    return {number, std::move(one), std::move(many)};
}

Quantity altitude(brewing::Length length) {
    return {QuantityKind::altitude, length.in(brewing::metre)};
}

Quantity share(double part_of_one) {
    return {QuantityKind::share, part_of_one};
}

Number number(double value, int decimals) {
    return {value, decimals};
}

Sum money(Money sum, std::string currency) {
    return {sum, std::move(currency)};
}

Command command(std::string_view method, json::object params) {
    return {std::string(method), std::move(params)};
}

Source source(std::string_view key) {
    return {std::string(key)};
}

std::vector<Source> sources(std::string_view keys) {
    std::vector<Source> all;
    while (!keys.empty()) {
        const std::size_t end = std::min(keys.find(' '), keys.size());
        if (end > 0)
            all.push_back(source(keys.substr(0, end)));
        keys.remove_prefix(std::min(end + 1, keys.size()));
    }
    return all;
}

QuantityRange range(QuantityKind kind, double low, std::optional<double> likely, double high) {
    return {kind, low, likely, high};
}

bool Text::empty() const {
    return std::all_of(runs.begin(), runs.end(), [](const Run& run) {
        const auto* plain = std::get_if<std::string>(&run.value);
        return plain != nullptr && plain->empty();
    });
}

Text& Text::append(const Text& other) {
    const std::vector<Run> copied = other.runs; // `other` may be this text
    runs.insert(runs.end(), copied.begin(), copied.end());
    return *this;
}

Text& Text::append(const std::vector<Source>& keys) {
    bool is_first = true;
    for (const Source& key : keys) {
        if (!std::exchange(is_first, false))
            runs.emplace_back(" ");
        runs.emplace_back(key);
    }
    return *this;
}

Text listed(const std::vector<Text>& parts, std::string_view last_word) {
    Text whole;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0 && i + 1 == parts.size())
            whole.append(" " + std::string(last_word) + " ");
        else if (i > 0)
            whole.append(", ");
        whole.append(parts[i]);
    }
    return whole;
}

} // namespace barmkeep::sheet
