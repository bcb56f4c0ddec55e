#include "ledger/patients.hpp"

namespace coldtally::ledger {

std::vector<EntryNumber> gives_to(const Store& store, const std::string& patient) {
    auto s = store.database().statement(
        "SELECT entry FROM entry WHERE kind = 'give' AND json_extract(body, '$.patient') = ? ORDER BY entry");
    s.bind(patient);
    std::vector<EntryNumber> out;
    while (s.step()) out.push_back(s.integer(0));
    return out;
}

}  // namespace coldtally::ledger
