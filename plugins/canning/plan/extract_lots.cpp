#include "plugins/canning/plan/extract_lots.hpp"

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

/// Product of a lot that fills the whole of a jar's need.
Mass whole_share(const ExtractLot& lot, const JarNeed& need) {
    return need.by_extract ? need.mass / lot.fraction() : need.mass;
}

/// The stock of the lots while jars are filled one by one.
class Filling {
public:
    Filling(std::span<const ExtractLot> lots, const JarNeed& need, Mass step)
        : lots_{lots}, need_{need}, step_{step} {
        for (const auto& lot : lots)
            left_.push_back(steps_in(lot.available));
    }

    /// One jar's parts, taken off; none if the stock does not fill it.
    std::vector<Part> next_jar() {
        std::vector<double> left = left_;
        std::vector<Part> parts;
        double open = 1.0; // share of the jar's need not yet met
        for (std::size_t i = 0; i < lots_.size(); ++i) {
            const double need = std::round(whole_share(lots_[i], need_) * open / step_);
            if (need * step_ < smallest_share && !parts.empty())
                return take(left, parts);
            // One step short is still a jar: the scale would hardly show it.
            const double share = std::min(left[i], need);
            if (share <= 0)
                continue;
            if (share >= need - 1) {
                parts.push_back({i, share * step_});
                left[i] -= share;
                return take(left, parts);
            }
            if (share * step_ < smallest_share)
                continue;
            parts.push_back({i, share * step_});
            left[i] -= share;
            open -= share * step_ / whole_share(lots_[i], need_);
        }
        return {};
    }

    [[nodiscard]] Mass left() const {
        Mass sum;
        for (const double steps : left_)
            sum += steps * step_;
        return sum;
    }

private:
    /// Whole steps of the scale in a mass; a hair below a step counts as the step.
    [[nodiscard]] double steps_in(Mass mass) const { return std::floor(mass / step_ + 1e-9); }

    std::vector<Part> take(std::vector<double>& left, std::vector<Part>& parts) {
        left_ = std::move(left);
        return std::move(parts);
    }

    std::span<const ExtractLot> lots_;
    JarNeed need_;
    Mass step_;
    std::vector<double> left_; // in steps of the scale
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
    if (facts.form == contract::Form::dry)
        return {42, 44, 45, "published range for dry malt extract, docs/science.md"};
    if (facts.form == contract::Form::liquid)
        return {35, 36, 37, "published range for liquid malt extract, docs/science.md"};
    throw Error(
        ErrorKind::conflict, "potential_unknown",
        "The extract potential of " + std::string(what) + " is not known.",
        "Set its potential from the label, or its form (dry or liquid), for example: barm good "
        "change '" +
            std::string(what) + "' --potential 1.044");
}

Allocation allocate(std::span<const ExtractLot> lots, const JarNeed& need, std::int64_t jars,
                    Mass step) {
    Allocation made;
    Filling filling{lots, need, step};
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
        const Mass each = std::round(whole_share(lots.back(), need) / step) * step;
        made.missing =
            std::max(each * static_cast<double>(jars - made.jars) - filling.left(), step);
    }
    return made;
}

} // namespace barmkeep::canning
