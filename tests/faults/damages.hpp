// Damages: what chance, a failing disk, or a person with a database program may do to a ledger's file.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "properties/random_site.hpp"

namespace faults {

struct Damage {
    std::string what;
    /// Does it to the file at `path`; false, with the words of the refusal, where it is kept out.
    std::function<bool(const std::string& path, std::string& words)> apply;
};

/// A random one of the file's bytes, or by SQL; the same seed, the same damage. `bytes`: the file's.
Damage random_damage(std::uint64_t seed, const std::string& bytes);

/// One of every kind in every table: a row more, a row less, each column of a row altered, a trigger, index or view
/// more or less, a column, constraint or collation other than the format's, a table in the place of another. Each is to
/// be found.
std::vector<Damage> tamperings(const std::string& path);

}  // namespace faults
