// What making a step of a starter writes, and how its answer is read back.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/made_messages.hpp"
#include "plugins/starter/plan.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/record.hpp"

namespace barmkeep::starter {

inline constexpr std::string_view collection = "starters";

/// The record's name: its number, so padded that names sort as numbers do.
[[nodiscard]] std::string record_name(std::int64_t number);

/// Reads a record.  Throws Error(internal) for a document that is no starter.
[[nodiscard]] Made made_of(const contract::Record& record);

/// The writes of the first step: yeast, jars, nutrient, and the record.
/// Throws Error(conflict) if the plan has no step, Error(not_enough) if jars are missing.
[[nodiscard]] contract::LedgerTogether::Params
writes_of_making(std::int64_t number, const Plan& plan, const std::optional<std::string>& nutrient);

/// The writes of the next step of a starter, filled from the shelf as it is now.
/// Throws Error(conflict) if all steps are made, Error(not_enough) if jars are missing.
[[nodiscard]] contract::LedgerTogether::Params writes_of_feeding(
    const Made& before, std::int64_t version, const std::optional<std::string>& concentrate,
    const std::optional<std::string>& nutrient, const Scene& scene, const Settings& settings);

/// The answer, from nothing but what the ledger stored, so that a repeated request is answered
/// alike.
[[nodiscard]] Taken taken_of(const contract::LedgerTogether::Result& written);

} // namespace barmkeep::starter
