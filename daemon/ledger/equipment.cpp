#include "sdk/contract/equipment.hpp"
#include "daemon/ledger/clearing.hpp"
#include "daemon/ledger/error_collector.hpp"
#include "daemon/ledger/limits.hpp"
#include "daemon/ledger/methods.hpp"
#include "sdk/method/nearest.hpp"

#include <set>

namespace barmkeep::ledger {
namespace {

using contract::EquipmentKind;

template <class Piece>
std::optional<Piece> find(const View& view, EquipmentKind kind, const std::string& name) {
    return view.first(
        "SELECT document FROM equipment WHERE kind = ? AND name = ?",
        [](const Row& row) { return decode<Piece>(parse_json(take_one<std::string>(row))); }, kind,
        name);
}

/// Fields that were not given keep their stored values.
template <class Piece>
void keep_absent(Piece& piece, const Piece& kept) {
    piece.name = kept.name; // as it was first spelt: loads and records go by it
    for (const Field& field : fields_of<Piece>())
        if (field.type->is_absent(field.in(&piece)))
            field.type->assign(field.in(&piece), field.in(&kept));
}

template <class Piece>
Piece keep(Transaction& transaction, EquipmentKind kind, Piece piece,
           const std::vector<std::string>& clear = {}) {
    refuse_both(piece, clear);
    if (const auto kept = find<Piece>(transaction, kind, piece.name))
        keep_absent(piece, *kept);
    empty_fields(piece, clear);
    transaction.run("INSERT OR REPLACE INTO equipment (kind, name, document) VALUES (?, ?, ?)",
                    kind, piece.name, write_json(to_json(piece)));
    transaction.event(contract::Topic::equipment_changed,
                      {{"kind", to_string(kind)}, {"name", piece.name}});
    return piece;
}

std::vector<std::string> names_of(const View& view, EquipmentKind kind) {
    return view.all("SELECT name FROM equipment WHERE kind = ? ORDER BY name",
                    take_one<std::string>, kind);
}

contract::JarSize require_jar(const View& view, const std::string& name,
                              const std::string& pointer) {
    if (auto jar = find<contract::JarSize>(view, EquipmentKind::jar, name))
        return std::move(*jar);
    const auto near = nearest(name, names_of(view, EquipmentKind::jar));
    throw Error(ErrorKind::not_found, "jar_unknown", "There is no jar size named '" + name + "'.",
                near ? "Did you mean '" + *near + "'?"
                     : "Add it first with: barm jar set '" + name + "'",
                pointer);
}

/// The capacity with each jar size as it is spelt in the cellar.
std::vector<contract::Capacity>
read_load(const View& view, const std::vector<contract::Capacity>& given, ErrorCollector& faults) {
    std::vector<contract::Capacity> load;
    std::set<std::string> seen;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const std::string pointer = "/capacity/" + std::to_string(i) + "/jar";
        faults.gather([&] {
            const auto jar = require_jar(view, given[i].jar, pointer);
            if (!seen.insert(jar.name).second)
                throw Error(ErrorKind::params, "named_twice",
                            "The jar size '" + jar.name + "' is named twice.",
                            "Name each jar size once.", pointer);
            load.push_back({jar.name, given[i].count});
        });
    }
    return load;
}

contract::Canner set_canner(Transaction& transaction, const Call&,
                            const contract::CannerSet::Params& given) {
    ErrorCollector faults;
    contract::Canner canner = given;
    canner.capacity = read_load(transaction, given.capacity, faults);
    faults.gather([&] { check_past(transaction, given.gauge_tested, "/gauge_tested", "tested"); });
    faults.throw_any();
    // A test without its result shows nothing: an unknown error must not pass for none.
    auto clear = given.clear;
    if (is_cleared(clear, "gauge_error")) {
        if (given.gauge_tested)
            throw Error(ErrorKind::params, "test_without_result", "A gauge test needs its result.",
                        "Set --gauge-error; 0 if the gauge reads right.", "/clear");
        clear.emplace_back("gauge_tested");
    }
    return keep(transaction, EquipmentKind::canner, canner, clear);
}

contract::JarSize set_jar(Transaction& transaction, const Call&,
                          const contract::JarSet::Params& jar) {
    return keep<contract::JarSize>(transaction, EquipmentKind::jar, jar, jar.clear);
}

contract::Flask set_flask(Transaction& transaction, const Call&, const contract::Flask& flask) {
    return keep(transaction, EquipmentKind::flask, flask);
}

template <class Piece>
std::vector<Piece> pieces_of(const View& view, EquipmentKind kind) {
    return view.all(
        "SELECT document FROM equipment WHERE kind = ? ORDER BY name",
        [](const Row& row) { return decode<Piece>(parse_json(take_one<std::string>(row))); }, kind);
}

contract::EquipmentList::Result list(const View& view, const Call&, const Nothing&) {
    return {pieces_of<contract::Canner>(view, EquipmentKind::canner),
            pieces_of<contract::JarSize>(view, EquipmentKind::jar),
            pieces_of<contract::Flask>(view, EquipmentKind::flask)};
}

Nothing remove(Transaction& transaction, const Call&,
               const contract::EquipmentRemove::Params& params) {
    if (transaction.run("DELETE FROM equipment WHERE kind = ? AND name = ?", params.kind,
                        params.name) == 0) {
        const auto near = nearest(params.name, names_of(transaction, params.kind));
        throw Error(
            ErrorKind::not_found, "equipment_unknown",
            "There is no " + std::string(to_string(params.kind)) + " named '" + params.name + "'.",
            near ? "Did you mean '" + *near + "'?" : "List the equipment with: barm equipment list",
            "/name");
    }
    transaction.event(contract::Topic::equipment_changed,
                      {{"kind", to_string(params.kind)}, {"name", params.name}});
    return {};
}

} // namespace

void add_equipment(Methods& methods) {
    methods.writes<contract::CannerSet>(&set_canner);
    methods.writes<contract::JarSet>(&set_jar);
    methods.writes<contract::FlaskSet>(&set_flask);
    methods.reads<contract::EquipmentList>(&list);
    methods.writes<contract::EquipmentRemove>(&remove);
}

} // namespace barmkeep::ledger
