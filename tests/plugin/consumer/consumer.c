/*
 * A program of somebody else's, which uses the library as it is installed. Plain C11.
 *
 *     consumer NOTE PROFILE    prints the note's ledger and its audit as NDJSON, then what it needs of both in words
 *
 * Exit status: 0, or 1 with the reason on the standard error.
 */
#include <jointledger.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#if UINTPTR_MAX == 0xffffffffffffffff
/* The layout that programs were compiled with: to change any of this is to change JOINTLEDGER_ABI_VERSION. */
_Static_assert(JOINTLEDGER_ABI_VERSION == 0, "the sizes below are those of ABI version 0");
_Static_assert(sizeof(jointledger_engine_options) == 56, "engine options");
_Static_assert(sizeof(jointledger_audit_options) == 16, "audit options");
_Static_assert(sizeof(jointledger_span) == 8, "span");
_Static_assert(sizeof(jointledger_degrees) == 32, "degrees");
_Static_assert(sizeof(jointledger_grade) == 32, "grade");
_Static_assert(sizeof(jointledger_entry) == 104, "entry");
_Static_assert(sizeof(jointledger_complaint) == 20, "complaint");
_Static_assert(sizeof(jointledger_ledger) == 32, "ledger");
_Static_assert(sizeof(jointledger_gap) == 96, "gap");
_Static_assert(offsetof(jointledger_gap, prompt) == 40, "gap");
_Static_assert(sizeof(jointledger_credit) == 32, "credit");
_Static_assert(sizeof(jointledger_inconsistency) == 72, "inconsistency");
_Static_assert(sizeof(jointledger_audit) == 104, "audit");
_Static_assert(offsetof(jointledger_audit, gaps) == 32, "audit");
_Static_assert(sizeof(jointledger_expectation) == 48, "expectation");
_Static_assert(sizeof(jointledger_profile) == 48, "profile");
#endif

static int fail(const char* what, int code, const char* message) {
  fprintf(stderr, "%s: %s: %s\n", what, jointledger_code_text(code), message);
  return EXIT_FAILURE;
}

/* The file's bytes, to be freed; NULL if it cannot be read. */
static char* contents(const char* path, size_t* size) {
  FILE* file = fopen(path, "rb");
  char* bytes = NULL;
  if (file == NULL) return NULL;
  if (fseek(file, 0, SEEK_END) == 0) {
    const long end = ftell(file);
    rewind(file);
    if (end > 0 && (bytes = malloc((size_t)end)) != NULL) *size = fread(bytes, 1, (size_t)end, file);
  }
  fclose(file);
  return bytes;
}

static void print_words(const char* text, const jointledger_span* spans, size_t count) {
  for (size_t i = 0; i < count; ++i) {
    printf(" '%.*s'", (int)(spans[i].end - spans[i].start), text + spans[i].start);
  }
  printf("\n");
}

static int use(jointledger_engine* engine, jointledger_scratch* scratch, const char* path, const char* profile) {
  const jointledger_ledger* ledger = NULL;
  const jointledger_audit* audit = NULL;
  const char* json = NULL;
  size_t json_size = 0;
  size_t size = 0;
  char* text = contents(path, &size);
  int code = JOINTLEDGER_OK;
  if (text == NULL) return fail(path, JOINTLEDGER_OK, "cannot be read");

  code = jointledger_read(engine, scratch, text, size, &ledger);
  if (code == JOINTLEDGER_OK) code = jointledger_ledger_json(scratch, path, strlen(path), &json, &json_size);
  if (code == JOINTLEDGER_OK) printf("%.*s\n", (int)json_size, json);
  if (code == JOINTLEDGER_OK) code = jointledger_audit_ledger(scratch, profile, strlen(profile), NULL, &audit);
  if (code == JOINTLEDGER_OK) code = jointledger_audit_json(scratch, path, strlen(path), &json, &json_size);
  if (code == JOINTLEDGER_OK) {
    printf("%s\n", json);
    for (size_t i = 0; i < ledger->entry_count; ++i) {
      const jointledger_entry* entry = &ledger->entries[i];
      printf("%s %s:", jointledger_region_name(entry->region), jointledger_component_name(entry->component));
      print_words(text, entry->evidence, entry->evidence_count);
    }
    for (size_t i = 0; i < audit->gap_count; ++i) printf("%s\n", audit->gaps[i].prompt);
    printf("%s\n", audit->notice);
  }
  free(text);
  return code == JOINTLEDGER_OK ? EXIT_SUCCESS : fail(path, code, jointledger_scratch_message(scratch));
}

int main(int argc, char** argv) {
  jointledger_engine* engine = NULL;
  jointledger_scratch* scratch = NULL;
  char* faults = NULL;
  int status = EXIT_FAILURE;
  int code = JOINTLEDGER_OK;
  if (argc != 3) return fail("usage", JOINTLEDGER_BAD_ARGUMENT, "consumer NOTE PROFILE");
  if (jointledger_abi_version() != JOINTLEDGER_ABI_VERSION || strcmp(jointledger_version(), JOINTLEDGER_VERSION) != 0 ||
      jointledger_version_number() != JOINTLEDGER_VERSION_NUMBER) {
    return fail("library", JOINTLEDGER_INTERNAL, "another version than the header");
  }
  code = jointledger_engine_open(NULL, &engine, &faults);
  if (code != JOINTLEDGER_OK) status = fail("engine", code, faults == NULL ? "" : faults);
  if (code == JOINTLEDGER_OK) {
    code = jointledger_scratch_new(&scratch);
    status = code == JOINTLEDGER_OK ? use(engine, scratch, argv[1], argv[2]) : fail("scratch", code, "");
  }
  jointledger_text_free(faults);
  jointledger_scratch_free(scratch);
  jointledger_engine_release(engine);
  return status;
}
