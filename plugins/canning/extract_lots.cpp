#include "plugins/canning/extract_lots.hpp"

#include "sdk/brewing/extract.hpp"

#include <cmath>

namespace barmkeep::canning {
namespace {

using brewing::Estimate;
using brewing::ExtractPotential;
using brewing::gram;
using brewing::Mass;

// A label gives whole points; the true figure may lie half a point to either side.
constexpr double label_rounding = 0.5;
constexpr double solids_doubt = 0.01;

Mass to_scale(Mass mass) {
    return std::round(mass / scale_step) * scale_step;
}

/// Product of a lot that fills the whole of a jar's need.
Mass whole_share(const ExtractLot& lot, const JarNeed& need) {
    return need.by_extract ? need.mass / lot.fraction() : need.mass;
}

/// The stock of the lots while jars are filled one by one.
class Filling {
public:
    Filling(std::span<const ExtractLot> lots, const JarNeed& need) : lots_{lots}, need_{need} {
        for (const auto& lot : lots)
            left_.push_back(lot.free);
    }

    /// One jar's parts, taken off; none if the stock does not fill it.
    std::vector<Part> next_jar() {
        std::vector<Mass> left = left_;
        std::vector<Part> parts;
        double open = 1.0; // share of the jar's need not yet met
        for (std::size_t i = 0; i < lots_.size(); ++i) {
            const Mass wanted = to_scale(whole_share(lots_[i], need_) * open);
            if (wanted < smallest_share && !parts.empty())
                return take(left, parts);
            if (left[i] >= wanted) {
                parts.push_back({i, wanted});
                left[i] -= wanted;
                return take(left, parts);
            }
            const Mass rest = std::floor(left[i] / scale_step) * scale_step;
            if (rest < smallest_share)
                continue;
            parts.push_back({i, rest});
            left[i] -= rest;
            open -= rest / whole_share(lots_[i], need_);
        }
        return {};
    }

    [[nodiscard]] Mass left() const {
        Mass sum;
        for (const Mass one : left_)
            sum += one;
        return sum;
    }

private:
    std::vector<Part> take(std::vector<Mass>& left, std::vector<Part>& parts) {
        left_ = std::move(left);
        return std::move(parts);
    }

    std::span<const ExtractLot> lots_;
    JarNeed need_;
    std::vector<Mass> left_;
};

} // namespace

double ExtractLot::fraction() const {
    return ExtractPotential::of_points_per_pound_gallon(points.likely).mass_fraction();
}

Estimate<double> potential_of(const contract::Facts& facts, std::string_view what) {
    if (facts.potential) {
        const double points = facts.potential->points();
        return {points - label_rounding, points, points + label_rounding, "the lot's own facts"};
    }
    if (facts.solids) {
        const auto points = [](double solids) {
            return ExtractPotential::of_mass_fraction(solids).points_per_pound_gallon();
        };
        return {points(*facts.solids - solids_doubt), points(*facts.solids),
                points(std::min(*facts.solids + solids_doubt, 1.0)), "the lot's dry solids"};
    }
    if (facts.form == "dry")
        return {42, 44, 45, "published range for dry malt extract, docs/science.md"};
    if (facts.form == "liquid")
        return {35, 36, 37, "published range for liquid malt extract, docs/science.md"};
    throw Error(ErrorKind::conflict, "potential_unknown",
                "Nothing is known of what " + std::string(what) + " yields.",
                "Set its potential from the label (--potential 1.044), or its form (dry or "
                "liquid), with good.change or lot.change.");
}

Allocation allocate(std::span<const ExtractLot> lots, const JarNeed& need, std::int64_t jars) {
    Allocation made;
    Filling filling{lots, need};
    while (made.jars < jars) {
        std::vector<Part> parts = filling.next_jar();
        if (parts.empty())
            break;
        if (made.groups.empty() || made.groups.back().parts != parts)
            made.groups.push_back({0, std::move(parts)});
        ++made.groups.back().jars;
        ++made.jars;
    }
    if (made.jars < jars && !lots.empty()) {
        const Mass wanted =
            whole_share(lots.back(), need) * static_cast<double>(jars - made.jars) - filling.left();
        made.missing = std::max(wanted, smallest_share);
    }
    return made;
}

} // namespace barmkeep::canning
