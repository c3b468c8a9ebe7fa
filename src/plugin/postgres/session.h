/*
 * What a server process keeps between calls: the engine with its words and rules, and one scratch that all calls work
 * with. A backend has one thread; so both are the process's own, and none of this is thread-safe.
 *
 * Nothing here hands note text to anything but the library: errors name the reason, never the words.
 */
#ifndef JOINTLEDGER_POSTGRES_SESSION_H
#define JOINTLEDGER_POSTGRES_SESSION_H

#include "jointledger.h"
#include "note_text.h"

/* Declares the settings jointledger.data, .lexicon and .rules. Once, as the module is loaded. */
extern void declare_settings(void);

/* Loads words and rules now; of the postmaster, so that the processes that it forks have them already. Only warns if
 * they cannot be loaded: the server is to start all the same. */
extern void load_ahead(void);

/*
 * Reads a note into the scratch. Returns its ledger, which holds until the next call; NULL if the note itself cannot be
 * read, with the reason in `fault`. Raises an SQL error for whatever is not the note's fault, and where the statement
 * was cancelled.
 */
extern const jointledger_ledger* read_note(const NoteText* note, NoteFault* fault);

/* Holds what was read last against the profile of that name, likewise. An unknown profile is an SQL error. */
extern const jointledger_audit* audit_note(const char* profile, size_t profile_size);

/* To be called when a note's results were taken over: gives back the memory that a long one has taken. */
extern void end_note(void);

#endif
