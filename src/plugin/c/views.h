// Ledgers and audits as the plain structures of the C interface.
#pragma once

#include "audit/audit.h"
#include "jointledger.h"
#include "ledger/ledger.h"
#include "plugin/c/arena.h"

namespace jointledger::plugin {

/// The structures live in `arena`; their ids point into the lexicon that read the ledger.
jointledger_ledger view_of(const Ledger& ledger, Arena& arena);

/// The same of an audit; its texts point into `audit` and its profile.
jointledger_audit view_of(const Audit& audit, Arena& arena);

}  // namespace jointledger::plugin
