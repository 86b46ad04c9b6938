#include "sdk/contract/equipment.hpp"
#include "daemon/ledger/limits.hpp"
#include "daemon/ledger/methods.hpp"
#include "sdk/method/nearest.hpp"

#include <set>

namespace barmkeep::ledger {
namespace {

using contract::EquipmentKind;

template <class Piece>
Piece keep(Transaction& transaction, EquipmentKind kind, const Piece& piece) {
    transaction.run("INSERT OR REPLACE INTO equipment (kind, name, document) VALUES (?, ?, ?)",
                    kind, piece.name, write_json(to_json(piece)));
    transaction.event(contract::Topic::equipment_changed,
                      {{"kind", word_of(kind)}, {"name", piece.name}});
    return piece;
}

contract::Canner set_canner(Transaction& transaction, const Call&, const contract::Canner& canner) {
    check_past(transaction, canner.gauge_tested, "/gauge_tested", "tested");
    std::set<std::string> seen;
    for (const auto& capacity : canner.capacity)
        if (!seen.insert(capacity.jar).second)
            throw Error(ErrorKind::params, "named_twice",
                        "The jar size '" + capacity.jar + "' is named twice.",
                        "Name each jar size once.", "/capacity");
    return keep(transaction, EquipmentKind::canner, canner);
}

contract::JarSize set_jar(Transaction& transaction, const Call&, const contract::JarSize& jar) {
    return keep(transaction, EquipmentKind::jar, jar);
}

contract::Flask set_flask(Transaction& transaction, const Call&, const contract::Flask& flask) {
    return keep(transaction, EquipmentKind::flask, flask);
}

template <class Piece>
std::vector<Piece> pieces_of(const View& view, EquipmentKind kind) {
    return view.all(
        "SELECT document FROM equipment WHERE kind = ? ORDER BY name",
        [](const Row& row) { return read_as<Piece>(parse_json(take_one<std::string>(row))); },
        kind);
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
        const auto near = nearest(
            params.name, transaction.all("SELECT name FROM equipment WHERE kind = ? ORDER BY name",
                                         take_one<std::string>, params.kind));
        throw Error(ErrorKind::not_found, "equipment_unknown",
                    "There is no " + std::string(word_of(params.kind)) + " named '" + params.name +
                        "'.",
                    near ? "Did you mean '" + *near + "'?" : "equipment.list shows what there is.",
                    "/name");
    }
    transaction.event(contract::Topic::equipment_changed,
                      {{"kind", word_of(params.kind)}, {"name", params.name}});
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
