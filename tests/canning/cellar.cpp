#include "tests/canning/cellar.hpp"

#include <algorithm>
#include <spdlog/sinks/null_sink.h>
#include <unistd.h>

namespace barmkeep::canning::test {
namespace {

std::filesystem::path new_folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "canning-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr)
        throw std::runtime_error("no scratch folder");
    return pattern;
}

AmountGiven given(std::string_view text) {
    AmountGiven amount;
    amount.given = json::value(text);
    return amount;
}

} // namespace

Cellar::Cellar() : folder_{new_folder()} {
    open(parse_instant("2026-03-02T08:00:00Z"));
    stock();
}

Cellar::~Cellar() {
    close();
    std::filesystem::remove_all(folder_);
}

void Cellar::open(Instant at) {
    host_ = std::make_unique<plugin::FakeHost>(at);
    host_->methods().remove_provider("core"); // the ledger brings its own ledger.recall
    ledger::Ledger::Options options;
    options.file = folder_ / "cellar.ledger";
    ledger_ = std::make_unique<ledger::Ledger>(
        options, executor_, host_->clock(),
        std::make_shared<spdlog::logger>("test", std::make_shared<spdlog::sinks::null_sink_mt>()));
    ledger_->on_event([this](const contract::Event& event) {
        const std::scoped_lock lock{mutex_};
        events_.push_back(event);
    });
    ledger_->add_methods(host_->methods());
    host_->start<Canning>();
}

void Cellar::close() {
    host_->stop();
    ledger_->stop();
    ledger_.reset();
    host_.reset();
}

void Cellar::restart(Seconds down) {
    const Instant at = now() + down;
    close();
    open(at);
}

void Cellar::stock() {
    using contract::Category;
    contract::CellarSet::Params cellar;
    cellar.altitude = 500 * brewing::metre;
    cellar.currency = "EUR";
    (void)call<contract::CellarSet>(cellar);
    contract::Facts dry;
    dry.potential = brewing::Gravity::sg(1.044);
    (void)call<contract::GoodAdd>(
        {"light extract", Category::extract, {}, given("500 g"), dry, {}});
    (void)call<contract::GoodAdd>({"lids", Category::lids, {}, given("12"), {}, {}});
    (void)call<contract::GoodAdd>({"nutrient", Category::nutrient, {}, {}, {}, {}});
    (void)call<contract::GoodAdd>({"pint of wort", Category::concentrate, {}, {}, {}, {}});
    const auto buy = [this](std::string good, std::string_view amount, std::int64_t paid,
                            std::string supplier, std::string_view best_by) {
        return call<contract::StockBuy>({std::move(good),
                                         given(amount),
                                         {paid * 1'000'000},
                                         std::move(supplier),
                                         {},
                                         {},
                                         parse_date(best_by),
                                         {},
                                         {}})
            .lot.code;
    };
    second_bag_ = buy("light extract", "1500 g", 15, "Maltings on the river", "2027-06-01");
    first_bag_ = buy("light extract", "400 g", 4, "Corner shop", "2026-06-01");
    (void)buy("lids", "24", 6, "Corner shop", "2030-01-01");
    (void)buy("nutrient", "100 g", 3, "Corner shop", "2030-01-01");
    (void)call<contract::JarSet>(
        {{"pint", 415 * brewing::millilitre, 1 * brewing::inch, {}, contract::JarClass::pint}, {}});
    (void)call<contract::CannerSet>({{"kettle",
                                      contract::Gauge::dial,
                                      {{"pint", 7}},
                                      parse_date("2026-01-10"),
                                      0.5 * brewing::psi_gauge},
                                     {}});
    ProcessSet::Params process;
    static_cast<Process&>(process) = {"mine",
                                      "pint",
                                      contract::Gauge::dial,
                                      Appliance::pressure_canner,
                                      12 * brewing::psi_gauge,
                                      minutes(20),
                                      "the test's own figures, no process",
                                      {}};
    (void)call<ProcessSet>(process);
}

CanningPlan::Params Cellar::seven_pints() {
    CanningPlan::Params wanted;
    wanted.jar = "pint";
    wanted.jars = 7;
    wanted.makes = 1 * brewing::litre;
    wanted.at = brewing::Gravity::sg(1.035);
    return wanted;
}

RunStart::Params Cellar::start_params(std::int64_t jars) {
    RunStart::Params params;
    static_cast<LoadRequest&>(params) = seven_pints();
    params.jars = jars;
    params.process = "mine";
    return params;
}

RunDetails Cellar::start(std::int64_t jars) {
    return call<RunStart>(start_params(jars));
}

RunSummary Cellar::log(std::int64_t run, Step step) {
    return call<RunLog>({run, step, {}, {}});
}

RunSummary Cellar::shows(std::int64_t run, double psi) {
    return call<RunGauge>({run, psi * brewing::psi_gauge, {}, {}});
}

RunSummary Cellar::keep_pressure(std::int64_t run, double psi, std::int64_t for_minutes) {
    RunSummary last;
    for (std::int64_t left = for_minutes; left > 0;) {
        const std::int64_t step = std::min<std::int64_t>(left, 5);
        left -= step;
        wait(minutes(step));
        last = shows(run, psi);
    }
    return last;
}

void Cellar::up_to_pressure(std::int64_t run, std::int64_t vented) {
    (void)log(run, Step::steam_flows);
    wait(minutes(vented));
    (void)log(run, Step::weight_on);
    wait(minutes(4));
    (void)shows(run, 13);
}

void Cellar::cool_and_open(std::int64_t run) {
    (void)log(run, Step::heat_off);
    wait(minutes(35));
    (void)shows(run, 0);
    wait(minutes(10));
    (void)log(run, Step::opened);
}

void Cellar::process_by_the_book(std::int64_t run) {
    wait(minutes(30));
    up_to_pressure(run);
    (void)keep_pressure(run, 13, 20);
    cool_and_open(run);
    wait(hours(14));
}

void Cellar::process_vented_short(std::int64_t run) {
    wait(minutes(30));
    up_to_pressure(run, 3);
    (void)keep_pressure(run, 13, 20);
    cool_and_open(run);
}

void Cellar::process_with_a_gap(std::int64_t run) {
    wait(minutes(30));
    up_to_pressure(run);
    wait(minutes(20));
    cool_and_open(run);
    wait(hours(14));
}

RunSealTest::Result Cellar::seal(std::int64_t run, std::int64_t held, std::int64_t failed,
                                 FailedTo failed_to) {
    RunSealTest::Params params;
    params.run = run;
    params.held = held;
    params.failed = failed;
    params.failed_to = failed_to;
    return call<RunSealTest>(params);
}

RunSealTest::Result Cellar::shelved_run() {
    const std::int64_t run = start().run;
    process_by_the_book(run);
    return seal(run, 7);
}

OpeningRecord::Result Cellar::open_jars(const LotCode& lot, std::int64_t jars) {
    OpeningRecord::Params params;
    params.lot = lot;
    params.jars = jars;
    params.looked = params.listened = params.smelled = true;
    return call<OpeningRecord>(params);
}

OpeningRecord::Result Cellar::open_spoiled(const LotCode& lot) {
    OpeningRecord::Params params;
    params.lot = lot;
    params.signs = {Sign::spurting};
    return call<OpeningRecord>(params);
}

std::vector<contract::Reminder> Cellar::reminders() {
    contract::ReminderList::Params params;
    params.all = true;
    return call<contract::ReminderList>(params).reminders;
}

std::vector<RunRow> Cellar::all_runs() {
    RunList::Params params;
    params.all = true;
    return call<RunList>(params).runs;
}

contract::Shelf Cellar::shelf(std::string_view good) {
    contract::StockList::Params params;
    params.good = std::string(good);
    const auto shelves = call<contract::StockList>(params).shelves;
    return shelves.empty() ? contract::Shelf{} : shelves.front();
}

std::vector<contract::Event> Cellar::events(std::string_view topic) {
    const std::scoped_lock lock{mutex_};
    std::vector<contract::Event> chosen;
    std::ranges::copy_if(events_, std::back_inserter(chosen),
                         [&](const contract::Event& event) { return event.topic == topic; });
    return chosen;
}

void Cellar::expect_sound() {
    const auto check = call<contract::LedgerCheck>({});
    EXPECT_TRUE(check.sound) << (check.faults.empty() ? "" : check.faults.front().what);
}

} // namespace barmkeep::canning::test
