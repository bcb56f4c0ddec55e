// A clinic's file: looked at as a whole, asked about where it loosens anything, posted as one batch.
#include "coldtally/entry_work.hpp"
#include "coldtally/work.hpp"
#include "put_back.hpp"
#include "text/json_text.hpp"
#include "words/drafts.hpp"
#include "words/lists.hpp"
#include "words/start.hpp"

namespace coldtally {

namespace {

/// What the entries loosen, by the questions that single ones ask; of a new ledger nothing.
DefinitionDraft asked(Ledger& ledger, StartDraft& draft, Instant now) {
    if (draft.is_new) return {std::move(draft.drafted), std::nullopt, {}};
    DefinitionDraft out = definition_draft(ledger, std::move(draft.drafted), now);
    if (!out.changes) return entry_draft(ledger, std::move(out.drafted), now);
    auto& said = out.drafted.warnings;
    const auto more = ledger.arrivals(out.drafted.entries, said, now);
    said.insert(said.begin(), more.begin(), more.end());
    return out;
}

}  // namespace

StartDone Work::start(const StartRequest& request, Meant meant) {
    StartDone out{request.name, ledger_.start_draft(request, now_), meant.dry_run, std::nullopt, {}};
    StartDraft& draft = out.draft;
    if (!draft.mistakes.empty() || draft.drafted.entries.empty()) {
        out.dry_run = true;
        return out;
    }
    DefinitionDraft whole = asked(ledger_, draft, now_);
    draft.drafted = std::move(whole.drafted);
    draft.lines.resize(draft.drafted.entries.size(), 0);  // holds that are put back stand in no line
    draft.drafted.warnings.insert(draft.drafted.warnings.begin(), draft.asks.begin(), draft.asks.end());
    out.changes = std::move(whole.changes);
    std::vector<Remark> asks = draft.asks;
    asks.insert(asks.end(), whole.loosens.begin(), whole.loosens.end());
    const bool waits = !asks.empty() && !meant.yes;
    out.dry_run = meant.dry_run || waits;
    ledger_.post(draft.drafted, now_, out.dry_run);
    if (waits && !meant.dry_run) out.asks = std::move(asks);
    return out;
}

Remark mistake_words(const StartMistake& m) {
    const Remark where = m.column.empty() ? words::start_table(m.table) : words::start_table_column(m.table, m.column);
    Field what = m.table.empty() ? Field() : Field(where);
    Field why = m.text;
    if (!m.value.empty()) why = words::colon(text::quoted(m.value), m.text);
    if (m.line == 0) return words::colon(what, why);
    return m.table.empty() ? words::colon(words::line_named(m.line), why)
                           : words::start_mistake_at(m.line, what, why);
}

void require_taken(const StartDone& done, bool each) {
    const auto& mistakes = done.draft.mistakes;
    if (!mistakes.empty()) {
        std::string all = english().say(words::start_mistakes(mistakes.size(), done.file));
        if (each)
            for (const auto& m : mistakes) all += "\n" + english().say(mistake_words(m));
        throw Error(mistakes.front().code, all);
    }
    if (done.draft.drafted.entries.empty() && done.draft.unchanged == 0)
        throw Error(Code::bad_text, english().say(words::start_nothing(done.file)));
    ask_before_loosening(DefinitionDraft{{}, std::nullopt, done.asks}, false);
}

}  // namespace coldtally
