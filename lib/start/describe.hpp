// Describe: what the rows of a clinic's file mean: the drafts of entries, in the order in which they can be posted.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "start/cells.hpp"
#include "start/sheet.hpp"

namespace coldtally::start {

struct RowDraft {
    std::int64_t line = 0;
    const Table* table = nullptr;
    Json fields;                     ///< of one entry, as Ledger::draft takes them
    std::string makes;               ///< what it defines: "place main"; empty: nothing
    std::vector<std::string> needs;  ///< what it names, likewise
    std::map<std::string_view, std::string> cells;  ///< as they stand there, for messages
    bool bad = false;                ///< a mistake of it is said already: only `makes` counts
};

struct Description {
    std::vector<RowDraft> rows;
    std::vector<StartMistake> mistakes;
    std::vector<StartRemark> said;  ///< of the file itself
};

/// `zone`: the site's in the ledger, in which the file's dates are read where it states none; none: a ledger that is
/// still to be made. Errors of read_sheet.
Description describe(const StartRequest& request, const std::optional<Zone>& zone, Instant now);

}  // namespace coldtally::start
