// The ledger as a whole: its check and its copies.
#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using contract::CheckFinding;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

constexpr double bytes_per_megabyte = 1e6;

std::vector<Text> in_words(const std::vector<CheckFinding>& findings) {
    std::vector<Text> lines;
    for (const CheckFinding& finding : findings)
        lines.push_back(finding.lot ? text("lot ", *finding.lot, ": ", finding.what)
                                    : text(finding.what));
    return lines;
}

} // namespace

sheet::Sheet ledger_check(const Nothing&, const contract::LedgerCheck::Result& result) {
    SheetBuilder made("Check of the ledger");
    if (result.sound) {
        made.lead("The ledger is sound: ", sheet::count(result.entries, "entry", "entries"),
                  " and ", sheet::count(result.lots, "lot"), " agree.");
    } else {
        made.alarm("ledger_not_sound",
                   "The ledger does not agree with itself. Write nothing more into it, keep its "
                   "file, and go back to the last sound copy.");
        made.lead("Found ", sheet::count(static_cast<std::int64_t>(result.faults.size()), "fault"),
                  " in ", sheet::count(result.entries, "entry", "entries"), " and ",
                  sheet::count(result.lots, "lot"), ".");
    }
    made.lines(in_words(result.faults), "Faults");
    made.more("Stored values that no longer fit today's rules; they do no harm",
              SheetBuilder().lines(in_words(result.oddities)));
    if (result.sound)
        made.action(asking("make a copy", "ledger.backup", {}, {"file"}, "c"));
    return made;
}

sheet::Sheet ledger_backup(const contract::LedgerBackup::Params&,
                           const contract::LedgerBackup::Result& result) {
    SheetBuilder made("Copy of the ledger");
    made.lead(sheet::count(result.entries, "entry", "entries"),
              " copied and checked: ", result.file);
    made.note("The file has ",
              sheet::number(static_cast<double>(result.bytes) / bytes_per_megabyte, 1),
              " MB. Keep it on another disk or machine.");
    return made;
}

} // namespace barmkeep::ledger::sheets
