#include "daemon/ledger/keys.hpp"

#include "daemon/ledger/methods.hpp"
#include "sdk/contract/ledger.hpp"

namespace barmkeep::ledger {
namespace {

contract::LedgerRecall::Result recall(const View& view, const Call& call,
                                      const contract::LedgerRecall::Params& params) {
    auto answer = stored_answer(view, params.of, call.digest);
    if (!answer)
        return {};
    return {true, std::move(*answer)};
}

} // namespace

std::optional<json::value> stored_answer(const View& view, const std::string& key,
                                         const std::string& digest) {
    struct Kept {
        std::string digest;
        std::string answer;
    };
    const auto kept = view.first(
        "SELECT digest, answer FROM request_key WHERE key = ?",
        [](const Row& row) {
            Kept read;
            take_row(row, read.digest, read.answer);
            return read;
        },
        key);
    if (!kept)
        return std::nullopt;
    if (!digest.empty() && kept->digest != digest)
        throw Error(ErrorKind::conflict, "key_used",
                    "The request key '" + key + "' was used for another request.",
                    "Give a new request a new key.", "/key");
    return parse_json(kept->answer);
}

void store_answer(Transaction& transaction, const std::string& key, const std::string& digest,
                  const json::value& answer) {
    transaction.run("DELETE FROM request_key WHERE at < ?", transaction.now() - keys_kept);
    transaction.run("INSERT INTO request_key (key, digest, at, answer) VALUES (?, ?, ?, ?)", key,
                    digest, transaction.now(), write_json(answer));
}

void add_keys(Methods& methods) {
    methods.reads<contract::LedgerRecall>(&recall);
}

} // namespace barmkeep::ledger
