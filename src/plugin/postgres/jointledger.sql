\echo Use "CREATE EXTENSION jointledger" to load this file. \quit

-- Ranges count the characters of the note from 0: substr(note, lower(r) + 1, upper(r) - lower(r)) is what stands there.
CREATE TYPE exam_degrees AS (
    motion text,            -- NULL where a range names no motion ("0-140")
    side text,
    from_degrees integer,   -- NULL where the note gives a single figure
    to_degrees integer,
    lacking boolean,        -- the figure counts down from full motion ("lacks 10 degrees of extension")
    evidence int4range
);

CREATE TYPE exam_grade AS (
    value text,             -- without its scale: "4+"
    scale integer,          -- the number after the slash
    side text,
    evidence int4range
);

-- The costs are what keeps a query over many notes parallel: to read one takes as long as some thousand comparisons.

CREATE FUNCTION exam_entries(note text)
RETURNS TABLE (
    region text, component text, side text, outcome text, motions text[], degrees exam_degrees[],
    grades exam_grade[], structures text[], tests text[], certainty real, evidence int4range[])
AS 'MODULE_PATHNAME', 'jointledger_pg_entries'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 20;

CREATE FUNCTION try_exam_entries(note text)
RETURNS TABLE (
    region text, component text, side text, outcome text, motions text[], degrees exam_degrees[],
    grades exam_grade[], structures text[], tests text[], certainty real, evidence int4range[],
    sqlstate text, fault text)
AS 'MODULE_PATHNAME', 'jointledger_pg_try_entries'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 20;

CREATE FUNCTION exam_complaints(note text)
RETURNS TABLE (region text, side text, injury boolean, evidence int4range)
AS 'MODULE_PATHNAME', 'jointledger_pg_complaints'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 1;

CREATE FUNCTION try_exam_complaints(note text)
RETURNS TABLE (region text, side text, injury boolean, evidence int4range, sqlstate text, fault text)
AS 'MODULE_PATHNAME', 'jointledger_pg_try_complaints'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 1;

CREATE FUNCTION exam_gaps(note text, profile text)
RETURNS TABLE (
    expectation text, kind text, region text, side text, components text[], motions text[], structures text[],
    reason text, nearest int4range[], credit double precision, prompt text)
AS 'MODULE_PATHNAME', 'jointledger_pg_gaps'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 10;

CREATE FUNCTION try_exam_gaps(note text, profile text)
RETURNS TABLE (
    expectation text, kind text, region text, side text, components text[], motions text[], structures text[],
    reason text, nearest int4range[], credit double precision, prompt text, sqlstate text, fault text)
AS 'MODULE_PATHNAME', 'jointledger_pg_try_gaps'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 10;

-- The columns of the table NOTE_NLP of OMOP CDM v5.4 that come from the note, as the command line writes them with
-- --to omop; src/report/omop_report.h says what they mean.

CREATE FUNCTION exam_terms(note text)
RETURNS TABLE (
    snippet text, "offset" integer, lexical_variant text, nlp_system text, term_exists text, term_temporal text,
    term_modifiers text)
AS 'MODULE_PATHNAME', 'jointledger_pg_terms'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 20;

CREATE FUNCTION try_exam_terms(note text)
RETURNS TABLE (
    snippet text, "offset" integer, lexical_variant text, nlp_system text, term_exists text, term_temporal text,
    term_modifiers text, sqlstate text, fault text)
AS 'MODULE_PATHNAME', 'jointledger_pg_try_terms'
LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE COST 5000 ROWS 20;

COMMENT ON FUNCTION exam_entries(text) IS 'what a note documents of a joint exam';
COMMENT ON FUNCTION try_exam_entries(text) IS 'the same; of a note that cannot be read its fault';
COMMENT ON FUNCTION exam_complaints(text) IS 'the regions and sides that the history of a note complains of';
COMMENT ON FUNCTION try_exam_complaints(text) IS 'the same; of a note that cannot be read its fault';
COMMENT ON FUNCTION exam_gaps(text, text) IS 'what a note lacks by a profile: an audit of documentation, not of care';
COMMENT ON FUNCTION try_exam_gaps(text, text) IS 'the same; of a note that cannot be read its fault';
COMMENT ON FUNCTION exam_terms(text) IS 'what the table NOTE_NLP of OMOP is to have of a note';
COMMENT ON FUNCTION try_exam_terms(text) IS 'the same; of a note that cannot be read its fault';
