#include "daemon/ledger/goods.hpp"
#include "daemon/ledger/clearing.hpp"

#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/limits.hpp"
#include "daemon/ledger/methods.hpp"
#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace barmkeep::ledger {
namespace {

constexpr std::string_view select_goods =
    "SELECT number, name, class, measure, package, facts, note FROM good ";

GoodRow read_good(const Row& row) {
    GoodRow known;
    contract::Good& good = known.good;
    std::optional<std::int64_t> package;
    std::string facts;
    take_row(row, known.number, good.name, good.category, good.measure, package, facts, good.note);
    known.facts = parse_json(facts).as_object();
    good.facts = facts_from(known.facts);
    if (package)
        good.package = Amount{*package, good.measure};
    return known;
}

bool looks_like_lot(const std::string& name) {
    try {
        return parse_lot_code(name).number() > 0;
    } catch (const std::invalid_argument&) {
        return false;
    }
}

void check_name(const View& view, const std::string& name, std::string_view pointer) {
    if (name.find_first_not_of(' ') == std::string::npos || name.front() == ' ' ||
        name.back() == ' ')
        throw Error(ErrorKind::params, "bad_name",
                    "The name '" + name + "' begins or ends with a space, or is empty.",
                    "Give a name without spaces at its ends.", pointer);
    if (looks_like_lot(name))
        throw Error(ErrorKind::params, "bad_name", "The name '" + name + "' looks like a lot code.",
                    "Choose another name.", pointer);
    if (const auto known = find_good(view, name))
        throw Error(ErrorKind::conflict, "name_taken",
                    "A good named '" + known->good.name + "' already exists.",
                    "Choose another name. List the goods with: barm good list", pointer);
}

void send_changed(Transaction& transaction, const std::string& name) {
    transaction.event(contract::Topic::good_changed, {{"good", name}});
}

contract::Good add(Transaction& transaction, const Call&, const contract::GoodAdd::Params& params) {
    check_name(transaction, params.name, "/name");
    const auto measure = params.measure ? params.measure : contract::usual_measure(params.category);
    if (!measure)
        throw Error(ErrorKind::params, "missing", "A good of category 'other' needs a measure.",
                    "Give --measure mass, volume or pieces.", "/measure");
    std::optional<std::int64_t> package;
    if (params.package)
        package = positive(*params.package, *measure, "/package").steps;
    transaction.run("INSERT INTO good (name, class, measure, package, facts, note) "
                    "VALUES (?, ?, ?, ?, ?, ?)",
                    params.name, params.category, *measure, package,
                    write_json(to_json(params.facts)), params.note);
    send_changed(transaction, params.name);
    return require_good(transaction, params.name, "/name").good;
}

contract::Good change(Transaction& transaction, const Call&,
                      const contract::GoodChange::Params& params) {
    const GoodRow known = require_good(transaction, params.name, "/name");
    const contract::Good& good = known.good;
    check_clear(params.clear, {"package", "note"}, true);
    refuse_both(params.package.has_value(), "package", params.clear);
    refuse_both(params.note.has_value(), "note", params.clear);
    const std::string name = params.rename.value_or(good.name);
    const auto other = find_good(transaction, name);
    if (!other || other->number != known.number)
        check_name(transaction, name, "/rename");
    std::optional<std::int64_t> package;
    if (params.package)
        package = positive(*params.package, good.measure, "/package").steps;
    else if (good.package && !is_cleared(params.clear, "package"))
        package = good.package->steps;
    auto note = params.note;
    if (!note && !is_cleared(params.clear, "note"))
        note = good.note;
    transaction.run("UPDATE good SET name = ?, package = ?, facts = ?, note = ? WHERE number = ?",
                    name, package,
                    write_json(changed_facts(known.facts, params.facts, params.clear)), note,
                    known.number);
    send_changed(transaction, name);
    return require_good(transaction, name, "/name").good;
}

contract::GoodList::Result list(const View& view, const Call&,
                                const contract::GoodList::Params& params) {
    const auto [after] = place_after<contract::GoodList, 1>(params);
    auto known = view.all(std::string(select_goods) +
                              "WHERE (?1 IS NULL OR class = ?1) AND (?2 IS NULL OR name > ?2) "
                              "ORDER BY name LIMIT ?3",
                          read_good, params.category, after, params.limit + 1);
    contract::GoodList::Result result;
    result.next = cut_page<contract::GoodList>(
        params, known, [](const GoodRow& last) { return Place<1>{last.good.name}; });
    for (auto& one : known)
        result.all.push_back(std::move(one.good));
    return result;
}

} // namespace

std::optional<GoodRow> find_good(const View& view, const std::string& name) {
    return view.first(std::string(select_goods) + "WHERE name = ?", read_good, name);
}

GoodRow require_good(const View& view, const std::string& name, std::string_view pointer) {
    auto known = find_good(view, name);
    if (known)
        return std::move(*known);
    const auto names = view.all("SELECT name FROM good ORDER BY name", take_one<std::string>);
    const auto near = nearest(name, names);
    throw Error(ErrorKind::not_found, "good_unknown", "There is no good named '" + name + "'.",
                near ? "Did you mean '" + *near + "'?"
                     : "Add it first with: barm good add '" + name + "'",
                pointer);
}

contract::Facts overlay(const contract::Facts& under, const contract::Facts& over) {
    contract::Facts merged = under;
    for (const Field& field : fields_of<contract::Facts>())
        if (!field.type->is_absent(field.in(&over)))
            field.type->assign(field.in(&merged), field.in(&over));
    return merged;
}

contract::Facts facts_from(const json::object& stored) {
    return stored.empty() ? contract::Facts{} : decode<contract::Facts>(stored);
}

json::object changed_facts(json::object stored, const std::optional<contract::Facts>& set,
                           const std::vector<std::string>& clear) {
    if (set) {
        const json::object given = to_json(*set).as_object();
        for (const auto& fact : given)
            stored[fact.key()] = fact.value();
    }
    for (const Field& field : fields_of<contract::Facts>())
        if (is_cleared(clear, fmt::format("facts.{}", field.name)))
            stored.erase(field.name);
    return stored;
}

void add_goods(Methods& methods) {
    methods.writes<contract::GoodAdd>(&add);
    methods.writes<contract::GoodChange>(&change);
    methods.reads<contract::GoodList>(&list);
}

} // namespace barmkeep::ledger
