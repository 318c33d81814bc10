CREATE SCHEMA casetally_register;
CREATE TABLE casetally_register.case_version (
  case_name text NOT NULL,
  version   bigint NOT NULL,
  digest    text NOT NULL,
  status    text NOT NULL,
  date      text NOT NULL,
  person    text,
  taken_at  bigint NOT NULL,
  facts     text NOT NULL,
  record    text NOT NULL,
  PRIMARY KEY (case_name, version, digest)
) ;
CREATE INDEX case_version_person ON casetally_register.case_version (person);
CREATE TABLE casetally_register.person (id text PRIMARY KEY, root text NOT NULL) ;
CREATE INDEX person_root ON casetally_register.person (root);
CREATE TABLE casetally_register.person_number (
  number_key text NOT NULL,
  system     text NOT NULL,
  person     text NOT NULL,
  number     text NOT NULL,
  PRIMARY KEY (number_key, system, person)
) ;
CREATE INDEX person_number_person ON casetally_register.person_number (person);
CREATE TABLE casetally_register.use (
  id text,
  person text,
  case_name text,
  device text,
  part text,
  name text,
  kind text,
  family text,
  di text,
  lot text,
  serial text,
  expires text,
  maker text,
  model text,
  reference text,
  site text,
  side text,
  retrievable bigint,
  purpose text,
  state text,
  placed text,
  insertion_held bigint,
  ended text,
  dwell_days bigint,
  count bigint,
  inside bigint,
  due text,
  latest text,
  PRIMARY KEY (id, person)
) ;
CREATE INDEX use_person ON casetally_register.use (person);
CREATE INDEX use_di ON casetally_register.use (di);
CREATE INDEX use_lot ON casetally_register.use (lot);
CREATE INDEX use_serial ON casetally_register.use (serial);
CREATE INDEX use_filter ON casetally_register.use (retrievable, state) WHERE retrievable = 1;
CREATE TABLE casetally_register.use_event (
  use_id text,
  n bigint,
  person text,
  kind text,
  date text,
  case_name text,
  version bigint,
  told_as text,
  count bigint,
  evidence text,
  note text,
  PRIMARY KEY (use_id, person, n)
) ;
CREATE INDEX use_event_person ON casetally_register.use_event (person);
CREATE INDEX use_event_as ON casetally_register.use_event (told_as);
CREATE TABLE casetally_register.plan (
  use_id text,
  n bigint,
  person text,
  case_name text,
  key text,
  what text,
  by_role text,
  earliest text,
  due text,
  latest text,
  condition text,
  day text,
  closed_how text,
  closed_case text,
  closed_date text,
  PRIMARY KEY (use_id, person, n)
) ;
CREATE INDEX plan_person ON casetally_register.plan (person);
CREATE INDEX plan_open ON casetally_register.plan (day) WHERE closed_how IS NULL;
CREATE TABLE casetally_register.unlinked (
  case_name text,
  device text,
  person text,
  date text,
  body text,
  PRIMARY KEY (case_name, device, person)
) ;
CREATE INDEX unlinked_person ON casetally_register.unlinked (person);
CREATE TABLE casetally_register.gap (
  use_id text,
  case_name text,
  device text,
  person text,
  PRIMARY KEY (use_id, case_name, device, person)
) ;
CREATE INDEX gap_person ON casetally_register.gap (person);
CREATE TABLE casetally_register.decision (
  n         bigint PRIMARY KEY,
  kind      text NOT NULL,
  case_name text,
  device    text,
  use_ref   text,
  one       text,
  other     text,
  by_name   text NOT NULL,
  why       text NOT NULL,
  at        bigint NOT NULL
) ;
CREATE INDEX decision_case ON casetally_register.decision (case_name);
CREATE TABLE casetally_register.replayed (item text PRIMARY KEY) ;
CREATE TABLE casetally_register.version (number integer NOT NULL);
INSERT INTO casetally_register.case_version (case_name, version, digest, status, date, person, taken_at, facts, record) VALUES ('A', '1', 'sha256:A-1', 'final', '2024-01-10', 'a6f33bd1755139cd7600dedf88bebcd4', '1', '{"case":{"system":"https://ids.harbour.example/cases","value":"A"},"version":1,"status":"final","digest":"sha256:A-1","date":"2024-01-10","person":{"system":"https://ids.harbour.example/mrn","value":"4711"},"numbers":[{"system":"https://ids.harbour.example/mrn","value":"4711"}],"devices":[{"device":"drain","name":"8.5 Fr drainage catheter","kind":"drainage catheter","family":"drain","retrievable":false,"count":1,"inside":1,"out":0,"open":0,"plans":[{"key":"left/1","what":"Exchange","by":"ward","due":"2024-03-10"}],"di":"09506000117843","lot":"L1","side":"left","site":"Left kidney","inOn":"2024-01-10","purpose":"temporary"}]}', 'record of A');
INSERT INTO casetally_register.case_version (case_name, version, digest, status, date, person, taken_at, facts, record) VALUES ('B', '1', 'sha256:B-1', 'final', '2024-03-01', 'a6f33bd1755139cd7600dedf88bebcd4', '2', '{"case":{"system":"https://ids.harbour.example/cases","value":"B"},"version":1,"status":"final","digest":"sha256:B-1","date":"2024-03-01","person":{"system":"https://ids.harbour.example/mrn","value":"4711"},"numbers":[{"system":"https://ids.harbour.example/mrn","value":"4711"}],"devices":[{"device":"old","name":"8.5 Fr drainage catheter","kind":"drainage catheter","family":"drain","retrievable":false,"count":1,"inside":0,"out":1,"open":0,"plans":[],"di":"09506000117843","lot":"L1","side":"left","site":"Left kidney","carried":{},"outOn":"2024-03-01"}]}', 'record of B');
INSERT INTO casetally_register.case_version (case_name, version, digest, status, date, person, taken_at, facts, record) VALUES ('C', '1', 'sha256:C-1', 'final', '2024-04-01', 'a6f33bd1755139cd7600dedf88bebcd4', '3', '{"case":{"system":"https://ids.harbour.example/cases","value":"C"},"version":1,"status":"final","digest":"sha256:C-1","date":"2024-04-01","person":{"system":"https://ids.harbour.example/mrn","value":"4711"},"numbers":[{"system":"https://ids.harbour.example/mrn","value":"4711"}],"devices":[{"device":"old","name":"8.5 Fr drainage catheter","kind":"drainage catheter","family":"drain","retrievable":false,"count":1,"inside":0,"out":1,"open":0,"plans":[],"carried":{},"outOn":"2024-04-01"}]}', 'record of C');
INSERT INTO casetally_register.decision (n, kind, case_name, device, use_ref, one, other, by_name, why, at) VALUES ('1', 'unlink', 'C', 'old', NULL, NULL, NULL, 'Dr Okonjo', 'Another one', '4');
INSERT INTO casetally_register.person (id, root) VALUES ('a6f33bd1755139cd7600dedf88bebcd4', 'a6f33bd1755139cd7600dedf88bebcd4');
INSERT INTO casetally_register.person_number (number_key, system, person, number) VALUES ('39126ae567676f7247315ba5cfb9decd', 'https://ids.harbour.example/mrn', 'a6f33bd1755139cd7600dedf88bebcd4', '{"system":"https://ids.harbour.example/mrn","value":"4711"}');
INSERT INTO casetally_register.plan (use_id, n, person, case_name, key, what, by_role, earliest, due, latest, condition, day, closed_how, closed_case, closed_date) VALUES ('A/drain', '0', 'a6f33bd1755139cd7600dedf88bebcd4', 'A', 'left/1', 'Exchange', 'ward', NULL, '2024-03-10', NULL, NULL, '2024-03-10', 'removed', 'B', '2024-03-01');
INSERT INTO casetally_register.replayed (item) VALUES ('item-1');
INSERT INTO casetally_register.replayed (item) VALUES ('item-2');
INSERT INTO casetally_register.use (id, person, case_name, device, part, name, kind, family, di, lot, serial, expires, maker, model, reference, site, side, retrievable, purpose, state, placed, insertion_held, ended, dwell_days, count, inside, due, latest) VALUES ('A/drain', 'a6f33bd1755139cd7600dedf88bebcd4', 'A', 'drain', NULL, '8.5 Fr drainage catheter', 'drainage catheter', 'drain', '09506000117843', 'L1', NULL, NULL, NULL, NULL, NULL, 'Left kidney', 'left', '0', 'temporary', 'removed', '2024-01-10', '1', '2024-03-01', '51', '1', '0', NULL, NULL);
INSERT INTO casetally_register.use (id, person, case_name, device, part, name, kind, family, di, lot, serial, expires, maker, model, reference, site, side, retrievable, purpose, state, placed, insertion_held, ended, dwell_days, count, inside, due, latest) VALUES ('C/old', 'a6f33bd1755139cd7600dedf88bebcd4', 'C', 'old', NULL, '8.5 Fr drainage catheter', 'drainage catheter', 'drain', NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, '0', NULL, 'removed', NULL, '0', '2024-04-01', NULL, '1', '0', NULL, NULL);
INSERT INTO casetally_register.use_event (use_id, n, person, kind, date, case_name, version, told_as, count, evidence, note) VALUES ('A/drain', '0', 'a6f33bd1755139cd7600dedf88bebcd4', 'inserted', '2024-01-10', 'A', '1', 'A/drain', NULL, NULL, NULL);
INSERT INTO casetally_register.use_event (use_id, n, person, kind, date, case_name, version, told_as, count, evidence, note) VALUES ('A/drain', '1', 'a6f33bd1755139cd7600dedf88bebcd4', 'removed', '2024-03-01', 'B', '1', 'B/old', NULL, 'lot', NULL);
INSERT INTO casetally_register.use_event (use_id, n, person, kind, date, case_name, version, told_as, count, evidence, note) VALUES ('C/old', '0', 'a6f33bd1755139cd7600dedf88bebcd4', 'seen', '2024-04-01', 'C', '1', 'C/old', NULL, NULL, NULL);
INSERT INTO casetally_register.use_event (use_id, n, person, kind, date, case_name, version, told_as, count, evidence, note) VALUES ('C/old', '1', 'a6f33bd1755139cd7600dedf88bebcd4', 'removed', '2024-04-01', 'C', '1', 'C/old', NULL, NULL, NULL);
INSERT INTO casetally_register.version (number) VALUES (1);
