#include "tests/plugin/samples.hpp"

#include "sdk/sheet/builder.hpp"

#include "sdk/brewing/errors.hpp"

namespace barmkeep::plugin::test {

namespace {

sheet::Sheet count_sheet(const TallyCount::Params&, const TallyCount::Result& result) {
    return sheet::SheetBuilder("Tally").lead("There are ", sheet::count(result.count, "lot"), ".");
}

} // namespace

void Tally::declare(Declaration<Tally>& plugin) {
    plugin.method<TallyCount>(&Tally::count);
    plugin.sheet<TallyCount>(&count_sheet);
    plugin.method<TallyNote>(&Tally::note);
    plugin.method<TallyFail>(&Tally::fail);
    plugin.method<TallyWork>(&Tally::work);
    plugin.method<TallyCircle>(&Tally::circle);
    plugin.event("lot.", &Tally::lot_changed);
}

Tally::Tally(const Host& host, const Settings& settings) : host_{host}, count_{settings.first} {
    if (settings.first == 13)
        throw Error(ErrorKind::params, "unlucky", "13 is no beginning.", "Take 12.", "/first");
    if (settings.greeting)
        host_.log(LogLevel::info, *settings.greeting);
}

Tally::~Tally() {
    host_.log(LogLevel::debug, "stopped");
}

TallyCount::Result Tally::count(const PluginCall& call, const TallyCount::Params& params) {
    return {count_ += params.by, call.caller(), call.arrived()};
}

TallyNote::Result Tally::note(const PluginCall& call, const TallyNote::Params& params) {
    const auto posted = call.once<contract::ReminderPost>([&] {
        return contract::ReminderPost::Params{params.name,
                                              "count " + std::to_string(++count_),
                                              std::nullopt,
                                              parse_date("2026-03-20"),
                                              {},
                                              {},
                                              {}};
    });
    return {posted.title};
}

TallyFail::Result Tally::fail(const PluginCall& call, const TallyFail::Params& params) {
    if (params.how == "error")
        throw Error(ErrorKind::not_enough, "too_little", "There is too little.", "Buy some.");
    if (params.how == "exception")
        throw std::runtime_error("broke");
    if (params.how == "range")
        throw brewing::OutOfRange("pressure", 9, 0, 1, "bar", "Take less.");
    if (params.how == "stone")
        throw 42;
    if (params.how == "infinite")
        return {std::numeric_limits<double>::infinity()};
    if (params.how == "twice") {
        const auto post = [&] {
            return contract::ReminderPost::Params{
                "a", "b", std::nullopt, parse_date("2026-03-20"), {}, {}, {}};
        };
        (void)call.once<contract::ReminderPost>(post);
        (void)call.once<contract::ReminderPost>(post);
    }
    return {0.5};
}

Nothing Tally::work(const PluginCall& call, const Nothing&) {
    call.progress(1, 2, "half\nway");
    call.throw_if_cancelled();
    return {};
}

Nothing Tally::circle(const PluginCall& call, const TallyCircle::Params& params) {
    return params.own_accord ? host_.call<TallyCircle>(params) : call.call<TallyCircle>(params);
}

void Tally::lot_changed(const contract::Event& event) {
    if (event.about.contains("throw"))
        throw std::runtime_error("no such lot");
    ++count_;
}

} // namespace barmkeep::plugin::test
