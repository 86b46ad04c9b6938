#include "daemon/sources/source_sheets.hpp"

#include "sdk/sheet/builder.hpp"

namespace barmkeep::sources {

using contract::Source;
using sheet::column;
using sheet::SheetBuilder;
using sheet::text;

sheet::Sheet show_sheet(const contract::SourceShow::Params&, const Source& source) {
    SheetBuilder made("Source ", sheet::source(source.key));
    made.lead(source.what);
    made.facts(
        {{"used for", text(source.used_for)},
         {"published in", source.from ? text(sheet::sources(*source.from)) : sheet::Text{}}});
    if (source.from)
        for (const sheet::Source& publication : sheet::sources(*source.from))
            made.action(
                sheet::offer("show " + publication.key, "source.show", {{"key", publication.key}}));
    return made;
}

sheet::Sheet list_sheet(const Nothing&, const contract::SourceList::Result& result) {
    SheetBuilder made("Sources");
    made.lead(sheet::count(static_cast<std::int64_t>(result.sources.size()), "source"),
              " of all figures and safety texts, by key.");
    sheet::Table table;
    table.columns = {column("key"), column("what it is"),
                     column("published in", sheet::Align::left, 3)};
    for (const Source& source : result.sources)
        table.rows.push_back(sheet::row(source.key, source.what, source.from.value_or("")));
    made.table(std::move(table));
    sheet::Action show = sheet::offer("show one", "source.show", {}, "s");
    show.ask = {"key"};
    made.action(std::move(show));
    return made;
}

} // namespace barmkeep::sources
