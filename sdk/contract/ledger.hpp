// The ledger as a whole: checks, copies, several steps in one transaction.
#pragma once

#include "sdk/contract/listing.hpp"
#include "sdk/method/lot_code.hpp"

namespace barmkeep::contract {

/// Something that the check found.
struct CheckFinding {
    std::string what;
    std::optional<LotCode> lot;
    std::optional<std::string> place;
    static FieldList fields(auto) {
        return {field<&CheckFinding::what>("What does not agree, as a sentence."),
                field<&CheckFinding::lot>("The lot in which it was found."),
                field<&CheckFinding::place>("The field that no longer fits, by its path.")};
    }
};

struct LedgerCheck {
    static constexpr About about{"ledger.check", Access::look, Effect::reads,
                                 "Checks the ledger: recomputes every balance and checksum from "
                                 "the journal and compares, and runs the database's own check.",
                                 true};
    using Params = Nothing;
    struct Result {
        bool sound = false;
        std::int64_t entries = 0;
        std::int64_t lots = 0;
        std::vector<CheckFinding> faults;
        std::vector<CheckFinding> oddities;
        static FieldList fields(auto) {
            return {field<&Result::sound>("Whether nothing disagrees."),
                    field<&Result::entries>("Journal entries read."),
                    field<&Result::lots>("Lots compared."),
                    field<&Result::faults>("What does not agree."),
                    field<&Result::oddities>("Stored values that no longer fit today's rules. They "
                                             "are still read, and do no harm.")
                        .defaulted()};
        }
    };
};

struct LedgerBackup {
    static constexpr About about{
        "ledger.backup", Access::manage, Effect::reads,
        "Copies the ledger to a new file while it is in use, and checks the copy.", true};
    struct Params {
        std::string file;
        static FieldList fields(auto) {
            return {
                field<&Params::file>(
                    "Absolute path of the copy on the daemon's machine. The file must not exist.")
                    .positional()
                    .length(1, 1000)};
        }
    };
    struct Result {
        std::string file;
        std::int64_t bytes = 0;
        std::int64_t entries = 0;
        static FieldList fields(auto) {
            return {field<&Result::file>("The copy."), field<&Result::bytes>("Its size."),
                    field<&Result::entries>("Journal entries in it.")};
        }
    };
};

/// One step of a LedgerBatch.  A field that says so (x-from-batch in its schema) may be taken from
/// the result of an earlier step: {"result": 0, "at": "/entry"}.
struct BatchStep {
    std::string method;
    json::object params;
    static FieldList fields(auto) {
        return {field<&BatchStep::method>("A writing method of the core.").length(1, 60),
                field<&BatchStep::params>("Its params, without a request key.")};
    }
};

struct LedgerBatch {
    static constexpr About about{
        "ledger.batch", Access::keep, Effect::writes,
        "Calls several writing methods of the core in one transaction: all of them, or none."};
    struct Params {
        std::vector<BatchStep> steps;
        static FieldList fields(auto) {
            return {field<&Params::steps>("The calls, in order.").length(1, 100)};
        }
    };
    struct Result {
        std::vector<json::value> results;
        static FieldList fields(auto) {
            return {field<&Result::results>("The result of each call.")};
        }
    };
};

struct LedgerRecall {
    static constexpr About about{
        "ledger.recall", Access::look, Effect::reads,
        "Shows the stored answer to the request with a key, if that request was done."};
    struct Params {
        std::string of;
        static FieldList fields(auto) {
            return {field<&Params::of>("The request key.").positional().length(1, 120)};
        }
    };
    struct Result {
        bool done = false;
        json::value answer;
        static FieldList fields(auto) {
            return {field<&Result::done>("Whether it was done."),
                    field<&Result::answer>("The answer. Null if it was not done.")};
        }
    };
};

} // namespace barmkeep::contract
