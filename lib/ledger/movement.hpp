// Movement: what moves or changes doses of a lot, in numbers.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"

namespace coldtally::ledger {

/// Stored in the file: never renumber.
enum class MovementOp {
    receive = 1,
    move = 2,
    give = 3,
    waste = 4,
    give_back = 5,
    transfer = 6,
    count = 7,
    beyond_use = 8
};

struct Movement {
    std::int64_t at = 0;  ///< seconds since 1970
    EntryNumber entry = 0;
    MovementOp op = MovementOp::receive;
    std::int64_t source = 0, target = 0;  ///< holdings; 0: an outside account
    std::int64_t doses = 0;               ///< of a count: as counted
    bool flag = false;                    ///< receive: with a handover; give: not certain
};

/// Is the entry one of those? Then its parts by name.
struct MovementNames {
    MovementOp op;
    std::string product, lot, fund;
    std::string source_place, source_mark, target_place, target_mark;  ///< empty place: an outside account
    std::int64_t doses;
    bool flag;
};
std::optional<MovementNames> movement_names(const Fact& fact);

/// Doses of each holding, movement by movement.
class StockWalk {
public:
    /// What stands against the movement; none where it is possible. A refused movement changes nothing.
    std::optional<Remark> apply(const Movement& movement);
    std::int64_t doses(std::int64_t holding) const;
    const std::unordered_map<std::int64_t, std::int64_t>& all() const { return doses_; }

private:
    std::unordered_map<std::int64_t, std::int64_t> doses_;
};

}  // namespace coldtally::ledger
