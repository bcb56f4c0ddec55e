// Asking: every question of a ledger that may be damaged in any way, in a process of its own with a bound on time and
// memory; and what of the answers must not be.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace faults {

struct Asked {
    std::map<std::string, std::string> answers;  ///< by question, whole
    struct Refusal {
        std::string code, message;
    };
    std::map<std::string, Refusal> refusals;  ///< "verify" and "post" among them
    std::vector<std::string>
        unlisted;             ///< other exceptions, and messages that are not of one clear line, with their question
    long findings = -1;       ///< of verify; -1: it was refused
    std::string finding;      ///< the first
    std::string end;          ///< how the process ended where it did not come through: a signal, time, memory
    bool kept_out = false;    ///< the damage could not be done: what was asked for was refused
    std::string kept_out_by;  ///< in whose words
};

/// Copies `bytes` to a file, lets `damage` at it (false, with its words: it was kept out), and asks. A processor time
/// of ten seconds and a gibibyte of memory (not with sanitizers, which need more addresses) are all it gets.
Asked ask(const std::string& path, const std::string& bytes,
          const std::function<bool(const std::string& path, std::string& words)>& damage);

/// One line of what is wrong with what a damaged ledger said, against what it said undamaged; empty: nothing.
/// `must_be_found`: verify has to find it, or the file to be refused, also where no answer differs.
std::string wrong_with(const Asked& damaged, const Asked& whole, bool must_be_found);

/// In a process of this one's: what is wrong with an error; empty: it is of the library's list, in one clear line.
std::string wrong_with_error(const std::string& message);

}  // namespace faults
