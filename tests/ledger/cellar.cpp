#include "tests/ledger/cellar.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <cstdlib>
#include <spdlog/sinks/null_sink.h>

namespace barmkeep::ledger {

Folder::Folder() {
    std::string pattern =
        std::filesystem::is_directory("/dev/shm") ? "/dev/shm/cellar-XXXXXX" : "/tmp/cellar-XXXXXX";
    if (::mkdtemp(pattern.data()) == nullptr)
        throw std::runtime_error("no folder for the test");
    path_ = pattern;
}

Folder::~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

std::shared_ptr<spdlog::logger> silent_log() {
    return std::make_shared<spdlog::logger>("ledger",
                                            std::make_shared<spdlog::sinks::null_sink_mt>());
}

std::string dump(const std::filesystem::path& file) {
    SQLite::Database database{file.string(), SQLite::OPEN_READONLY};
    SQLite::Statement tables{database,
                             "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name"};
    std::string all;
    while (tables.executeStep()) {
        const std::string table = tables.getColumn(0).getString();
        SQLite::Statement rows{database, "SELECT * FROM \"" + table + "\" ORDER BY 1, 2"};
        while (rows.executeStep()) {
            all += table;
            for (int i = 0; i < rows.getColumnCount(); ++i)
                all += "|" + rows.getColumn(i).getString();
            all += "\n";
        }
    }
    return all;
}

Call caller(const std::string& name, Access access, const std::string& plugin) {
    Call call;
    call.caller = {name, access, plugin};
    return call;
}

Cellar::Cellar(const Ledger::Options& options, const std::shared_ptr<spdlog::logger>& log)
    : ledger{options, executor, clock, log}, anna{caller("anna", Access::manage)} {
    ledger.add_methods(table);
}

Outcome Cellar::outcome(const Call& call, std::string_view method, const json::object& params) {
    const json::value sent = params;
    return table.call(method, call, &sent);
}

json::object Cellar::does(std::string_view method, const json::object& params) {
    return does(anna, method, params);
}

json::object Cellar::does(const Call& call, std::string_view method, const json::object& params) {
    auto answer = outcome(call, method, params);
    if (const auto* error = std::get_if<Error>(&answer)) {
        ADD_FAILURE() << method << " was refused: " << error->what();
        throw *error;
    }
    return std::get<json::value>(answer).as_object();
}

Error Cellar::refusal(std::string_view method, const json::object& params) {
    return refusal(anna, method, params);
}

Error Cellar::refusal(const Call& call, std::string_view method, const json::object& params) {
    auto answer = outcome(call, method, params);
    if (const auto* error = std::get_if<Error>(&answer))
        return *error;
    ADD_FAILURE() << method << " was not refused: " << write_json(std::get<json::value>(answer));
    throw std::runtime_error("not refused");
}

json::object Cellar::undoing(const json::value& entry) {
    return {{"entry", entry},
            {"kind", does("entry.show", {{"entry", entry}}).at("kind")},
            {"reason", "mistake"}};
}

bool Cellar::is_sound() {
    const auto found = does("ledger.check");
    EXPECT_TRUE(found.at("sound").as_bool()) << write_json(found.at("faults"));
    return found.at("sound").as_bool();
}

CellarTest::CellarTest() {
    for (const auto& [name, goods] : {std::pair{"dry extract", "extract"},
                                      {"liquid extract", "extract"},
                                      {"lids", "lids"},
                                      {"pint jar", "glass"},
                                      {"wort", "concentrate"}})
        cellar.does("good.add", {{"name", name}, {"category", goods}});
}

std::string CellarTest::buy(const std::string& good, const json::value& amount,
                            const std::string& paid, const json::object& more) {
    json::object params{{"good", good}, {"amount", amount}, {"paid", paid}};
    for (const auto& member : more)
        params[member.key()] = member.value();
    const std::string code = text(cellar.does("stock.buy", params).at("lot"), "code");
    if (code.starts_with('J')) // nobody knows how bought jars were canned until somebody says so
        cellar.does("lot.vouch",
                    {{"lot", code},
                     {"process", "25 min at 12 psi, own notebook"},
                     {"canned", lot(code).contains("canned") ? lot(code).at("canned")
                                                             : json::value("2026-01-02")},
                     {"confirm", code}});
    return code;
}

double CellarTest::on_hand(const std::string& code) {
    return quantity(lot(code), "on_hand");
}

std::string CellarTest::value(const std::string& code) {
    return text(lot(code), "value");
}

std::int64_t CellarTest::plan(const std::string& day, const std::string& name) {
    return cellar.does("brew.plan", {{"day", day}, {"name", name}}).at("number").as_int64();
}

std::string text(const json::value& object, std::string_view member) {
    return std::string(object.at(member).as_string());
}

double quantity(const json::value& object, std::string_view member) {
    return object.at(member).at("quantity").to_number<double>();
}

} // namespace barmkeep::ledger
