// Damage: a ledger that chance or a person has altered may be refused or found out; it must not answer otherwise than
// before and verify, nor crash, hang, take all memory, or say what its reader can do nothing with.
//
// damage tampering                one of every kind in every table, all of which must be found
// damage ROUNDS [SEED [STEP]]     random ones of seeds SEED, SEED + STEP, ...
// damage one SEED                 the words of one of them
// damage made FILE                the ledger that is damaged, as it is made
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>

#include "faults/asking.hpp"
#include "faults/clinic.hpp"
#include "faults/damages.hpp"
#include "faults/folder.hpp"

namespace {

using faults::Asked;
using faults::Damage;

/// A question's or an error's kind: its words without numbers and names, so that equal ones are told once.
std::string kind_of(const std::string& wrong) {
    std::string out;
    for (const char c : wrong) {
        if (c >= '0' && c <= '9') {
            if (out.empty() || out.back() != '#') out += '#';
        } else {
            out += c;
        }
    }
    return out.substr(0, 160);
}

struct Tally {
    long rounds = 0, refused = 0, found = 0, unharmed = 0, kept_out = 0, wrong = 0;
    struct Kind {
        long times = 0;
        std::string first;
    };
    std::map<std::string, Kind> kinds;

    void add(const std::string& name, const Asked& asked, const std::string& against) {
        ++rounds;
        if (!against.empty()) {
            ++wrong;
            auto& k = kinds[kind_of(against == "verifies" ? name.substr(0, 14) + ": " + against : against)];
            if (++k.times == 1) k.first = name + ": " + against;
        } else if (asked.kept_out) {
            ++kept_out;
        } else if (asked.findings > 0) {
            ++found;
        } else if (asked.findings < 0) {
            ++refused;
        } else {
            ++unharmed;
        }
    }
    int say(const char* what) const {
        for (const auto& [kind, k] : kinds) std::cout << k.times << " times: " << k.first << "\n";
        std::cout << what << ": " << rounds << " damages: " << found << " found by verify, " << refused << " refused, "
                  << kept_out << " kept out, " << unharmed << " without harm, " << wrong << " wrong of " << kinds.size()
                  << " kinds\n";
        return wrong == 0 ? 0 : 1;
    }
};

}  // namespace

int main(int count, char** words) {
    if (count > 2 && std::strcmp(words[1], "made") == 0) {
        faults::make_clinic(words[2]);
        return 0;
    }
    const faults::Folder folder;
    const std::string made = (folder.path() / "made").string(), path = (folder.path() / "ledger").string();
    faults::make_clinic(made);
    std::ifstream in(made, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    const Asked whole = faults::ask(path, bytes, [](const std::string&, std::string&) { return true; });
    if (whole.findings != 0 || !whole.end.empty() || !whole.unlisted.empty() || !whole.refusals.empty()) {
        std::cout << "the ledger itself is not as it should be: " << whole.end << " " << whole.finding << "\n";
        for (const auto& [name, refusal] : whole.refusals)
            std::cout << name << ": " << refusal.code << ": " << refusal.message << "\n";
        for (const auto& line : whole.unlisted) std::cout << line << "\n";
        return 1;
    }
    if (const Asked again = faults::ask(path, bytes, [](const std::string&, std::string&) { return true; });
        !wrong_with(again, whole, false).empty()) {
        std::cout << "twice the same, and other answers\n";
        return 1;
    }
    Tally tally;
    if (count > 1 && std::strcmp(words[1], "tampering") == 0) {
        for (const Damage& d : faults::tamperings(made)) {
            const Asked asked = faults::ask(path, bytes, d.apply);
            tally.add(d.what, asked, wrong_with(asked, whole, true));
        }
        if (tally.rounds < 500) {
            std::cout << "only " << tally.rounds << " kinds of tampering\n";
            return 1;
        }
        return tally.say("tampering");
    }
    if (count > 2 && std::strcmp(words[1], "one") == 0) {
        const Damage d = faults::random_damage(std::strtoull(words[2], nullptr, 10), bytes);
        const Asked asked = faults::ask(path, bytes, [&](const std::string& at, std::string& said) {
            const bool done = d.apply(at, said);
            std::cout << d.what << ": " << said << std::endl;
            return done;
        });
        std::cout << "verify: " << asked.findings << " " << asked.finding << "\n";
        for (const auto& [name, refusal] : asked.refusals)
            std::cout << name << ": " << refusal.code << ": " << refusal.message << "\n";
        for (const auto& [name, answer] : asked.answers)
            if (answer != whole.answers.at(name)) std::cout << name << ": another answer\n";
        for (const auto& line : asked.unlisted) std::cout << line << "\n";
        const std::string wrong = wrong_with(asked, whole, false);
        std::cout << (wrong.empty() ? "as it must be" : wrong) << "\n";
        return wrong.empty() ? 0 : 1;
    }
    const long rounds = count > 1 ? std::atol(words[1]) : 300;
    const std::uint64_t seed = count > 2 ? std::strtoull(words[2], nullptr, 10) : 1,
                        step = count > 3 ? std::strtoull(words[3], nullptr, 10) : 1;
    for (long i = 0; i < rounds; ++i) {
        const std::uint64_t this_seed = seed + step * static_cast<std::uint64_t>(i);
        const Damage d = faults::random_damage(this_seed, bytes);
        const Asked asked = faults::ask(path, bytes, d.apply);
        tally.add("seed " + std::to_string(this_seed) + " (" + d.what + ")", asked, wrong_with(asked, whole, false));
    }
    return tally.say("damage");
}
