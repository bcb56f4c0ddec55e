// Immunizations: doses given, as other systems record them: out of a ledger, and into one. See fhir.hpp for the
// records.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/stock.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/fhir.hpp"

namespace coldtally {

/// Every give that stands, with what the review says of it, and what its record needs beside.
struct ImmunizationsAnswer {
    AnswerHead head;
    Zone zone;  ///< of the site
    struct Row {
        ReviewAnswer::Row dose;
        std::string product_name;
        std::optional<std::string> cvx, maker;
        std::string expiry;                ///< of the lot, as posted
        std::optional<Guidance> guidance;  ///< the last that covers the give
    };
    std::vector<Row> doses;  ///< in the order of entry
};

/// Records of doses given, to be noted in a ledger.
struct RecordsRequest {
    std::string by;  ///< initials
    std::optional<std::string> note;
    /// Of which holding the doses were, where the records and the ledger leave it open.
    std::optional<std::string> place, product, fund, mark;
    bool certain = true;  ///< false: the records name the lot, not the box
};

/// The gives that records make, and those that make none. Nothing of it has been posted.
struct DraftedRecords {
    Drafted what;
    struct LeftOut {
        std::string where;              ///< "line 3"
        std::optional<std::string> id;  ///< of the record
        Remark reason;
    };
    std::vector<LeftOut> left_out;  ///< in the order of the text
};

/// What was posted, or with `dry_run` would be.
struct PostedRecords {
    DraftedRecords records;  ///< its entries carry their numbers
    bool dry_run = false;
};
std::string to_json(const PostedRecords&);

}  // namespace coldtally
