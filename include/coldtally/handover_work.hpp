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
/// beside it (the same name with .txt). The handover is the history just before the doses left, at the transfer's own
/// instant, by all that is known at `now`. Without `file` nothing is written, but with `unasked`, where the handover is
/// needed and guidance did not condemn the doses, under handover_file_name in the working folder; where it is needed
/// and none is written, the warnings say so. `style` is the sheet's. No file is ever overwritten. With `dry_run`
/// nothing is posted or written, and the files are those that would be. Code::bad_value where the last entry is no
/// transfer; errors of Ledger::post; Code::contradiction where a file is there already, or guidance condemned the doses
/// and a file is named; Code::machine where one cannot be written. The ledger and the folder are as they were then; but
/// where another program posted between the two steps, the files are written anew once the transfer is posted, and if
/// that fails the message says that it stands, and under which number.
PostedTransfer post_transfer(Ledger& ledger, Drafted drafted, const std::optional<std::string>& file, bool unasked,
                             Instant now, bool dry_run, const TableStyle& style);

/// Writes a handover into a new file and its sheet beside it: the names of both. Code::contradiction and Code::machine
/// as above; no file is left behind then.
std::vector<std::string> write_handover(const HandoverAnswer& answer, const std::string& file, const TableStyle& style);

std::string to_json(const PostedTransfer&);
std::string to_table(const PostedTransfer&, const TableStyle&);

}  // namespace coldtally
