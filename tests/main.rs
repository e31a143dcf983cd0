//! Behaviour of the library and of the real binary, one file a behaviour. Every file in this folder
//! is listed here; `house` fails when one is not.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

/// Runs the binary, sealed from the machine.
mod support;

/// Finding an herb or a work by any of its names; the nearest and the ambiguous.
mod names;

/// The comparison: rows, differences, actions, filters, width, script.
mod comparing;

/// Each kind of difference, on an invented corpus made to show it.
mod kinds_of_difference;

/// Lines of transmission: two descents, silent links, differing links.
mod lines_of_transmission;

/// The card and the one-line answer, with their exit codes.
mod own_tongue;
mod pairing;
mod pairing_together;
mod profile_and_is;

/// `check`: a folder of samples for every code, and input that must not hurt.
mod checking;

/// The ranking by discord, and the agreement on all herbs.
mod disputes;

/// Made corpora: what counts by book and by line recover.
mod simulation;

/// Who agrees with whom, and who seems to follow whom.
mod affinity;

/// Drawings: XML, words for what they show, no label cut or overlapped, figures as in the view.
mod charts;

/// Handouts: every figure as in the view, nothing unescaped, cautions, languages, questions with evidence.
mod handouts;

/// The list of works, one work with its coverage, the state of the corpus.
mod works_and_state;

/// `--explain`, `--weighted`, `--found-lines`: what leads to a figure, and what is offered beside it.
mod working;

/// A folder of the user's own, added to the shipped corpus or alone.
mod own_corpus;

/// `weigh`: every opinion as published, exact amounts, formulas, bad input.
mod weighing;
mod weighing_exactly;
mod weighing_faults;

/// Completions and man pages.
mod completing;

/// The cache folder: no answer changes, every change is seen, damage heals.
mod cache;

/// `find`: phrases, properties, filters, counts, paging, a damaged index.
mod finding;
mod finding_best;

/// Names in every form and misspelt: the right herb first; `name`.
mod finding_names;

/// The notebook of tastings: form, faults, what is passed over and refused, every subcommand.
mod notebook;
mod notebook_commands;
/// Panels of tasters, their tables, forms and plans.
mod panel;
mod panel_tables;
mod taste_class;

/// Nothing of the notebook is lost: full disks, kills, many programs at once, what is kept of it.
mod notebook_keeping;

/// The reading room: pages and their JSON, requests that mean harm, files that change.
mod web;
mod web_hostile;
mod web_live;
mod web_support;

/// Runs that are killed while they make what is kept.
mod killed;

/// `read`: text to entries, encodings, merging, input that is no materia medica.
mod reading;

/// `export`: tables of claims, packages; hostile text in every format; works as bibliographies.
mod exporting;
mod exporting_files;
mod exporting_formats;

/// `cite`: the corpus, an herb, single claims.
mod citing;

/// The reader's grammar: the guide's productions, manners of other books, quoted speakers.
mod reader_grammar;

/// What a drug is said to be beside others: read, merged, checked, found, compared.
mod relations;

/// The reader against the reference reading.
mod reference_reading;

/// What the shipped corpus promises: size, witnesses, review, no herb left out of place.
mod shipped_corpus;

/// Agreement coefficients, intervals, clustering and estimates against published values.
mod published_agreement;

/// Values published elsewhere.
mod published_values;

/// JSON against its schemas, errors as JSON.
mod incompatible_pairs;
mod json_output;

/// Schemas and references that are generated.
mod generated;

/// README, docs and help: every example runs.
mod documented_examples;

/// The tours for scholar, teacher and practitioner: pictures, commands, links.
mod guide;
/// The reading room: disputes, works, pairing, weights, the notebook, panels, files to save.
mod web_client;
mod web_desk;
mod web_notebook;

/// Inputs kept for the fuzz targets.
mod fuzz_inputs;

/// Faults of the machine: damage, other versions, clocks, full disks, missing rights and homes, kills, many at once.
mod faults_cache;
mod faults_disk;
mod faults_kills;
mod faults_many;
mod faults_support;

/// House rules that a machine can hold.
mod house;
