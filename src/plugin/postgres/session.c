#include "postgres.h"

/* postgres.h goes first, since it sets what the headers of the system and of the server depend on. */
#include "miscadmin.h"
#include "session.h"
#include "utils/guc.h"
#include "utils/memutils.h"
#include "utils/varlena.h"

/* A scratch keeps the memory of its longest note, some fifty times its size; after a longer one it is freed. */
enum { kKeepScratchUpTo = 262144 };

/* Settings, and what the process keeps. The server is written for state of the process's own, and has no other. */
static char* data_setting;
static char* lexicon_setting;
static char* rules_setting;
static bool settings_changed;
static jointledger_engine* engine;
static jointledger_scratch* scratch;
static size_t longest_note;

static void settings_assigned(const char* value, void* extra) {
  (void)value;
  (void)extra;
  settings_changed = true;
}

static bool is_list_of_folders(char** value, void** extra, GucSource source) {
  List* names = NIL;

  (void)extra;
  (void)source;
  if (SplitDirectoriesString(pstrdup(*value), ',', &names)) return true;
  GUC_check_errdetail("It is a list of folders, separated by commas.");
  return false;
}

static void declare_setting(const char* name, const char* description, char** setting, GucStringCheckHook check) {
  /* Of the whole server and nobody else's, since results are to depend on nothing but the note. */
  DefineCustomStringVariable(name, description, NULL, setting, "", PGC_SIGHUP, GUC_SUPERUSER_ONLY, check,
                             settings_assigned, NULL);
}

void declare_settings(void) {
  declare_setting("jointledger.data", "Folder that holds lexicon/ and rules/; empty: what was installed.",
                  &data_setting, NULL);
  declare_setting("jointledger.lexicon", "Folders of a site's own word tables, laid over those.", &lexicon_setting,
                  is_list_of_folders);
  declare_setting("jointledger.rules", "Folders of a site's own profiles, laid over those.", &rules_setting,
                  is_list_of_folders);
  MarkGUCPrefixReserved("jointledger");
}

static int sqlstate_of(int code) {
  switch (code) {
    case JOINTLEDGER_BAD_TEXT:
      return ERRCODE_INVALID_TEXT_REPRESENTATION;
    case JOINTLEDGER_TOO_LONG:
      return ERRCODE_PROGRAM_LIMIT_EXCEEDED;
    case JOINTLEDGER_NO_PROFILE:
      return ERRCODE_UNDEFINED_OBJECT;
    case JOINTLEDGER_NO_MEMORY:
      return ERRCODE_OUT_OF_MEMORY;
    case JOINTLEDGER_NO_DATA:
    case JOINTLEDGER_BAD_DATA:
      return ERRCODE_CONFIG_FILE_ERROR;
    default:
      return ERRCODE_INTERNAL_ERROR;
  }
}

/* The folders of a setting, in memory of the current context. */
static const char* const* folders_of(const char* setting, size_t* count) {
  List* names = NIL;
  const char** folders;
  ListCell* cell;
  size_t i = 0;

  (void)SplitDirectoriesString(pstrdup(setting), ',', &names); /* it was checked */
  folders = palloc0(sizeof(char*) * (size_t)(list_length(names) + 1));
  foreach (cell, names) folders[i++] = lfirst(cell);
  *count = i;
  return folders;
}

static void open_engine(int level) {
  jointledger_engine_options options = {.size = sizeof options};
  jointledger_engine* opened = NULL;
  char* faults = NULL;
  char* told;
  int code;

  if (*data_setting != '\0') options.data = data_setting;
  options.lexicon = folders_of(lexicon_setting, &options.lexicon_count);
  options.rules = folders_of(rules_setting, &options.rules_count);
  settings_changed = false;
  code = jointledger_engine_open(&options, &opened, &faults);
  told = pstrdup(faults == NULL ? "" : faults);
  jointledger_text_free(faults);
  jointledger_engine_release(engine);
  engine = opened;
  if (code != JOINTLEDGER_OK) {
    ereport(level, (errcode(sqlstate_of(code)),
                    errmsg("cannot load the words and rules of jointledger: %s", jointledger_code_text(code)),
                    *told == '\0' ? 0 : errdetail_internal("%s", told)));
  } else if (*told != '\0') {
    ereport(DEBUG1, (errmsg_internal("rows without effect in the words and rules of jointledger: %s", told)));
  }
}

void load_ahead(void) { open_engine(WARNING); }

/* Asked by the library, about once a sentence. A jump out of C++ is not allowed, so that only the caller's
 * CHECK_FOR_INTERRUPTS() acts on what is pending. */
static int is_interrupted(void* context) {
  (void)context;
  return InterruptPending && INTERRUPTS_CAN_BE_PROCESSED();
}

static void get_ready(void) {
  if (engine == NULL || settings_changed) open_engine(ERROR);
  if (scratch == NULL) {
    jointledger_scratch* made = NULL;
    int code = jointledger_scratch_new(&made);

    if (code == JOINTLEDGER_OK) code = jointledger_scratch_watch(made, is_interrupted, NULL);
    if (code != JOINTLEDGER_OK) {
      jointledger_scratch_free(made);
      ereport(ERROR, (errcode(sqlstate_of(code)), errmsg("jointledger: %s", jointledger_code_text(code))));
    }
    scratch = made;
  }
}

void end_note(void) {
  if (longest_note <= kKeepScratchUpTo) return;
  jointledger_scratch_free(scratch);
  scratch = NULL;
  longest_note = 0;
}

static void raise_error(int code) {
  ereport(ERROR, (errcode(sqlstate_of(code)), errmsg("jointledger: %s", jointledger_scratch_message(scratch))));
}

const jointledger_ledger* read_note(const NoteText* note, NoteFault* fault) {
  const jointledger_ledger* ledger = NULL;
  int code;

  end_note(); /* of a call that ended with an error */
  get_ready();
  longest_note = Max(longest_note, note->size);
  /* What is pending need not end the statement; then the note is read again. */
  while ((code = jointledger_read(engine, scratch, note->utf8, note->size, &ledger)) == JOINTLEDGER_INTERRUPTED) {
    CHECK_FOR_INTERRUPTS();
  }
  if (code == JOINTLEDGER_BAD_TEXT || code == JOINTLEDGER_TOO_LONG) {
    fault->sqlstate = sqlstate_of(code);
    fault->reason = pstrdup(jointledger_scratch_message(scratch));
  } else if (code != JOINTLEDGER_OK) {
    raise_error(code);
  }
  return ledger;
}

const jointledger_audit* audit_note(const char* profile, size_t profile_size) {
  const jointledger_audit* audit = NULL;
  int code;

  while ((code = jointledger_audit_ledger(scratch, profile, profile_size, NULL, &audit)) == JOINTLEDGER_INTERRUPTED) {
    CHECK_FOR_INTERRUPTS();
  }
  if (code != JOINTLEDGER_OK) raise_error(code);
  return audit;
}
