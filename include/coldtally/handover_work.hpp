// Handover work: a transfer posted, and the files that go with its doses written.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"

namespace coldtally {

/// A transfer that was posted, or with a dry run would be; its handover, and the files that were written, or would be.
struct PostedTransfer {
    Posted posted;
    HandoverAnswer handover;
    std::vector<std::string> files;
};

/// Posts drafted entries of which the last is a transfer, and writes its handover into `file` and the sheet for people
/// beside it. Without `file` nothing is written, but with `unasked`, where the handover is needed, under
/// handover_file_name in the working folder. No file is ever overwritten. Errors of post; Code::contradiction where a
/// file is there already, or guidance condemned the doses and a file is named; Code::machine where one cannot be
/// written. The ledger and the files are as they were then.
PostedTransfer post_transfer(Ledger& ledger, Drafted drafted, const std::optional<std::string>& file, bool unasked,
                             Instant now, bool dry_run, const TableStyle& style);

/// Writes a handover into a new file and its sheet beside it: the names of both. Errors as above.
std::vector<std::string> write_handover(const HandoverAnswer& answer, const std::string& file, const TableStyle& style);

std::string to_json(const PostedTransfer&);
std::string to_table(const PostedTransfer&, const TableStyle&);

}  // namespace coldtally
