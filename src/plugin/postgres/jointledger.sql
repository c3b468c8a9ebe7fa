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

-- What the library that is loaded calls its version; that of this script is in pg_extension.
CREATE FUNCTION jointledger_version() RETURNS text
AS 'MODULE_PATHNAME', 'jointledger_pg_version'
LANGUAGE C STABLE STRICT PARALLEL SAFE;

-- From here on: the table NOTE_NLP of OMOP CDM v5.4, as the command line writes it with --to omop. What the columns
-- mean is said there (src/report/omop_report.h); a test holds the two equal row for row. The bodies are parsed now, so
-- that they mean these functions whatever the search path of the caller.

-- The stretch of at most `longest` characters that holds the most of the evidence, from the start of one piece to the
-- end of another; of several the first. A single piece that is longer is cut.
CREATE FUNCTION exam_passage(note text, evidence int4range[], longest integer) RETURNS int4range
LANGUAGE SQL IMMUTABLE STRICT PARALLEL SAFE
BEGIN ATOMIC
    WITH piece AS (
        SELECT n, r, bytes, sum(bytes) OVER (ORDER BY n) AS bytes_up_to
        FROM unnest(evidence) WITH ORDINALITY AS e(r, n),
             octet_length(convert_to(substr(note, lower(r) + 1, upper(r) - lower(r)), 'UTF8')) AS bytes
    )
    SELECT int4range(lower(first.r), least(upper(last.r), lower(first.r) + longest))
    FROM piece AS last, piece AS first
    WHERE first.n <= last.n AND (first.n = last.n OR upper(last.r) - lower(first.r) <= longest)
    ORDER BY last.bytes_up_to - first.bytes_up_to + first.bytes DESC, last.n, first.n
    LIMIT 1;
END;

-- The passage and what stands around it, `longest` characters at most, both ends between words.
CREATE FUNCTION exam_surroundings(note text, passage int4range, longest integer) RETURNS text
LANGUAGE SQL IMMUTABLE STRICT PARALLEL SAFE
BEGIN ATOMIC
    WITH room AS (
        SELECT lower(passage) AS start, upper(passage) AS finish, longest - (upper(passage) - lower(passage)) AS spare
    ), around AS (
        SELECT start, finish, greatest(start - spare / 2, 0) AS early, finish + spare - spare / 2 AS late FROM room
    ), cut AS (
        SELECT substr(note, early + 1, start - early) AS before, substr(note, start + 1, finish - start) AS words,
               substr(note, finish + 1, late - finish) AS after,
               early > 0 AND substr(note, early, 1) !~ '[ \n\r\t]' AS cut_before,
               substr(note, late + 1, 1) ~ '[^ \n\r\t]' AS cut_after
        FROM around
    )
    SELECT ltrim(CASE WHEN cut_before THEN regexp_replace(before, '^[^ \n\r\t]+', '') ELSE before END, E' \n\r\t')
           || words
           || rtrim(CASE WHEN cut_after THEN regexp_replace(after, '[^ \n\r\t]+$', '') ELSE after END, E' \n\r\t')
    FROM cut;
END;

CREATE TYPE exam_modifier AS (key text, items text[]);

-- "key=item,item;key=item": whole items, as far as 2000 characters reach; of a key without items nothing.
CREATE FUNCTION exam_modifiers(VARIADIC modifiers exam_modifier[]) RETURNS text
LANGUAGE SQL IMMUTABLE STRICT PARALLEL SAFE
BEGIN ATOMIC
    SELECT string_agg(word, '' ORDER BY m, i) FILTER (WHERE size <= 2000)
    FROM (
        SELECT m, i, word, sum(length(word)) OVER (ORDER BY m, i) AS size
        FROM (
            SELECT m, i, CASE WHEN i > 1 THEN ',' WHEN m > 1 THEN ';' || key || '=' ELSE key || '=' END || item AS word
            FROM unnest(modifiers) WITH ORDINALITY AS given(key, items, m),
                 unnest(items) WITH ORDINALITY AS list(item, i)
        ) AS words
    ) AS sized;
END;

CREATE FUNCTION try_exam_terms(note text)
RETURNS TABLE (
    snippet text, "offset" integer, lexical_variant text, nlp_system text, term_exists text, term_temporal text,
    term_modifiers text, sqlstate text, fault text)
LANGUAGE SQL IMMUTABLE STRICT PARALLEL SAFE COST 20000 ROWS 20
BEGIN ATOMIC
    WITH term AS (
        SELECT 1 AS part, e.ordinality AS n, e.evidence, e.outcome <> 'not_done' AS done, e.sqlstate, e.fault,
               exam_modifiers(
                   ('region', ARRAY[e.region])::exam_modifier,
                   ('component', ARRAY[e.component])::exam_modifier,
                   ('side', ARRAY[e.side])::exam_modifier,
                   ('outcome', ARRAY[e.outcome])::exam_modifier,
                   ('motions', e.motions)::exam_modifier,
                   ('degrees', ARRAY(
                       SELECT concat_ws(' ', d.motion, CASE WHEN d.lacking THEN 'lacking' END,
                                        coalesce(d.from_degrees || '..', '') || d.to_degrees, d.side)
                       FROM unnest(e.degrees) AS d))::exam_modifier,
                   ('grades', ARRAY(
                       SELECT g.value || '/' || g.scale || ' ' || g.side FROM unnest(e.grades) AS g))::exam_modifier,
                   ('structures', e.structures)::exam_modifier,
                   ('tests', e.tests)::exam_modifier,
                   ('certainty', ARRAY[e.certainty::text])::exam_modifier,
                   ('evidence', ARRAY(
                       SELECT lower(r) || '-' || upper(r) FROM unnest(e.evidence) AS r))::exam_modifier) AS modifiers
        FROM try_exam_entries(note) WITH ORDINALITY AS e
        UNION ALL
        SELECT 2, c.ordinality, ARRAY[c.evidence], true, NULL, NULL,
               exam_modifiers(
                   ('complaint', ARRAY['true'])::exam_modifier,
                   ('region', ARRAY[c.region])::exam_modifier,
                   ('side', ARRAY[c.side])::exam_modifier,
                   ('injury', ARRAY[c.injury::text])::exam_modifier,
                   ('evidence', ARRAY[lower(c.evidence) || '-' || upper(c.evidence)])::exam_modifier)
        FROM try_exam_complaints(note) WITH ORDINALITY AS c
        WHERE c.fault IS NULL
    )
    SELECT exam_surroundings(note, passage, 250), lower(passage),
           substr(note, lower(passage) + 1, upper(passage) - lower(passage)),
           CASE WHEN fault IS NULL THEN 'Jointledger ' || jointledger_version() END,
           CASE WHEN done THEN 'Y' WHEN fault IS NULL THEN 'N' END, CASE WHEN fault IS NULL THEN 'present' END,
           modifiers, sqlstate, fault
    FROM (SELECT *, exam_passage(note, evidence, 250) AS passage FROM term) AS placed
    ORDER BY part, n;
END;

COMMENT ON FUNCTION exam_entries(text) IS 'what a note documents of a joint exam';
COMMENT ON FUNCTION try_exam_entries(text) IS 'the same; of a note that cannot be read its fault';
COMMENT ON FUNCTION exam_complaints(text) IS 'the regions and sides that the history of a note complains of';
COMMENT ON FUNCTION try_exam_complaints(text) IS 'the same; of a note that cannot be read its fault';
COMMENT ON FUNCTION exam_gaps(text, text) IS 'what a note lacks by a profile: an audit of documentation, not of care';
COMMENT ON FUNCTION try_exam_gaps(text, text) IS 'the same; of a note that cannot be read its fault';
COMMENT ON FUNCTION try_exam_terms(text) IS 'what NOTE_NLP of OMOP is to have of a note, or its fault';
COMMENT ON FUNCTION exam_passage(text, int4range[], integer) IS 'the stretch that holds the most of the evidence';
COMMENT ON FUNCTION exam_surroundings(text, int4range, integer) IS 'a stretch of a note with the words around it';
COMMENT ON FUNCTION exam_modifiers(VARIADIC exam_modifier[]) IS 'modifiers as NOTE_NLP has them';
COMMENT ON FUNCTION jointledger_version() IS 'version of the library';
