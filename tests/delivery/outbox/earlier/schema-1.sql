CREATE SCHEMA casetally;
CREATE TABLE casetally.gate (
    destination text NOT NULL,
    closed_until bigint NOT NULL,
    failures integer NOT NULL,
    paused text
);
CREATE TABLE casetally.item (
    sequence bigint NOT NULL,
    id text NOT NULL,
    destination text NOT NULL,
    case_key text NOT NULL,
    patient_key text NOT NULL,
    payload text NOT NULL,
    digest text NOT NULL,
    context text,
    state text NOT NULL,
    created_at bigint NOT NULL,
    not_before bigint NOT NULL,
    attempts integer DEFAULT 0 NOT NULL,
    unknown_since bigint,
    last_reason text,
    parked text,
    receipt text,
    fence integer DEFAULT 0 NOT NULL,
    lease_until bigint DEFAULT 0 NOT NULL,
    CONSTRAINT item_state_check CHECK ((state = ANY (ARRAY['waiting'::text, 'sending'::text, 'delivered'::text, 'parked'::text, 'discarded'::text])))
);
ALTER TABLE casetally.item ALTER COLUMN sequence ADD GENERATED ALWAYS AS IDENTITY (
    SEQUENCE NAME casetally.item_sequence_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1
);
CREATE TABLE casetally.version (
    number integer NOT NULL
);
INSERT INTO casetally.gate VALUES ('records', 1710410490000, 2, NULL);
INSERT INTO casetally.item OVERRIDING SYSTEM VALUE VALUES (3, 'item-3', 'records', 'b', 'patient of b', '{
  "resourceType": "Bundle", "type": "transaction", "entry": [
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000001", "request": { "method": "POST", "url": "Patient", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cb-patient" },
      "resource": { "resourceType": "Patient", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "b-patient" }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000002", "request": { "method": "POST", "url": "Procedure", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cb-procedure" },
      "resource": { "resourceType": "Procedure", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "b-procedure" }], "status": "completed",
        "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "focalDevice": [{ "manipulated": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000003" } }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000003", "request": { "method": "POST", "url": "Device", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cb-drain" },
      "resource": { "resourceType": "Device", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "b-drain" }], "lotNumber": "L-17",
        "patient": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" } } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000004", "request": { "method": "POST", "url": "Observation", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cb-dose" },
      "resource": { "resourceType": "Observation", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "b-dose" }], "status": "final",
        "code": { "text": "dose area product" }, "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "valueQuantity": { "value": 4.20, "unit": "Gy.cm2" } } }
  ] }', 'sha256:0d20bc223caf254fb101e95d43f184193c3237800ea8bc128b82d04761c8678d', '{"sources":[]}', 'sending', 1710410399995, 1710410399995, 1, 1710410400000, NULL, NULL, NULL, 1, 1710410460000);
INSERT INTO casetally.item OVERRIDING SYSTEM VALUE VALUES (1, 'item-1', 'records', 'a', 'patient of a', '{
  "resourceType": "Bundle", "type": "transaction", "entry": [
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000001", "request": { "method": "POST", "url": "Patient", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-patient" },
      "resource": { "resourceType": "Patient", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "a-patient" }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000002", "request": { "method": "POST", "url": "Procedure", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-procedure" },
      "resource": { "resourceType": "Procedure", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "a-procedure" }], "status": "completed",
        "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "focalDevice": [{ "manipulated": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000003" } }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000003", "request": { "method": "POST", "url": "Device", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-drain" },
      "resource": { "resourceType": "Device", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "a-drain" }], "lotNumber": "L-17",
        "patient": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" } } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000004", "request": { "method": "POST", "url": "Observation", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-dose" },
      "resource": { "resourceType": "Observation", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "a-dose" }], "status": "final",
        "code": { "text": "dose area product" }, "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "valueQuantity": { "value": 4.20, "unit": "Gy.cm2" } } }
  ] }', 'sha256:5eb079a1576741b92135753cbb606744059d7992306a071b300567f43243ab46', '{"sources":[]}', 'delivered', 1710410400000, 1710410400000, 1, NULL, 'accepted', NULL, '{"destination":"records","baseUrl":"http://127.0.0.1/fhir","requestId":"r1","sentAt":"2024-03-14T10:00:00.000Z","digest":"sha256:5eb079a1576741b92135753cbb606744059d7992306a071b300567f43243ab46","how":"answered","entries":[{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000001","type":"Patient","status":201,"found":"answer","id":"1","version":"1","etag":"W/\"1\"","location":"Patient/1/_history/1"},{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000002","type":"Procedure","status":201,"found":"answer","id":"2","version":"1","etag":"W/\"1\"","location":"Procedure/2/_history/1"},{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000003","type":"Device","status":201,"found":"answer","id":"3","version":"1","etag":"W/\"1\"","location":"Device/3/_history/1"},{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000004","type":"Observation","status":201,"found":"answer","id":"4","version":"1","etag":"W/\"1\"","location":"Observation/4/_history/1"}],"warnings":[]}', 1, 1710410460000);
INSERT INTO casetally.item OVERRIDING SYSTEM VALUE VALUES (2, 'item-2', 'records', 'a', 'patient of a', '{"resourceType":"Bundle","type":"transaction","entry":[{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000001","request":{"method":"POST","url":"Patient","ifNoneExist":"identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-patient"},"resource":{"resourceType":"Patient","identifier":[{"system":"urn:oid:2.16.840.1.113883.19.5.1","value":"a-patient"}]}},{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000002","request":{"method":"PUT","url":"Procedure?identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-procedure","ifMatch":"W/\"1\""},"resource":{"resourceType":"Procedure","identifier":[{"system":"urn:oid:2.16.840.1.113883.19.5.1","value":"a-procedure"}],"status":"completed","subject":{"reference":"urn:uuid:00000000-0000-4000-8000-000000000001"},"focalDevice":[{"manipulated":{"reference":"urn:uuid:00000000-0000-4000-8000-000000000003"}}]}},{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000003","request":{"method":"PUT","url":"Device?identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-drain","ifMatch":"W/\"1\""},"resource":{"resourceType":"Device","identifier":[{"system":"urn:oid:2.16.840.1.113883.19.5.1","value":"a-drain"}],"lotNumber":"L-18","patient":{"reference":"urn:uuid:00000000-0000-4000-8000-000000000001"}}},{"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000004","request":{"method":"PUT","url":"Observation?identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Ca-dose","ifMatch":"W/\"1\""},"resource":{"resourceType":"Observation","identifier":[{"system":"urn:oid:2.16.840.1.113883.19.5.1","value":"a-dose"}],"status":"final","code":{"text":"dose area product"},"subject":{"reference":"urn:uuid:00000000-0000-4000-8000-000000000001"},"valueQuantity":{"value":4.20,"unit":"Gy.cm2"}}}]}', 'sha256:31aa6311d384ee8c631bba0c2178a5423296c335ec4de340649017cf3838d2c0', '{"sources":[]}', 'waiting', 1710410400003, 1710410400003, 0, NULL, NULL, NULL, NULL, 0, 0);
INSERT INTO casetally.item OVERRIDING SYSTEM VALUE VALUES (4, 'item-4', 'records', 'c', 'patient of c', '{
  "resourceType": "Bundle", "type": "transaction", "entry": [
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000001", "request": { "method": "POST", "url": "Patient", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cc-patient" },
      "resource": { "resourceType": "Patient", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "c-patient" }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000002", "request": { "method": "POST", "url": "Procedure", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cc-procedure" },
      "resource": { "resourceType": "Procedure", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "c-procedure" }], "status": "completed",
        "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "focalDevice": [{ "manipulated": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000003" } }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000003", "request": { "method": "POST", "url": "Device", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cc-drain" },
      "resource": { "resourceType": "Device", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "c-drain" }], "lotNumber": "L-17",
        "patient": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" } } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000004", "request": { "method": "POST", "url": "Observation", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cc-dose" },
      "resource": { "resourceType": "Observation", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "c-dose" }], "status": "final",
        "code": { "text": "dose area product" }, "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "valueQuantity": { "value": 4.20, "unit": "Gy.cm2" } } }
  ] }', 'sha256:e798765305ca6b9d1a18fd256e79c5dec44e6e976066fa35c88f204e90b21eae', '{"sources":[]}', 'parked', 1710410400000, 1710410400000, 0, NULL, 'invalid', '{"reason":"invalid","by":"casetally","at":1710410400000,"findings":[]}', NULL, 0, 0);
INSERT INTO casetally.item OVERRIDING SYSTEM VALUE VALUES (5, 'item-5', 'records', 'd', 'patient of d', '{
  "resourceType": "Bundle", "type": "transaction", "entry": [
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000001", "request": { "method": "POST", "url": "Patient", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cd-patient" },
      "resource": { "resourceType": "Patient", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "d-patient" }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000002", "request": { "method": "POST", "url": "Procedure", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cd-procedure" },
      "resource": { "resourceType": "Procedure", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "d-procedure" }], "status": "completed",
        "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "focalDevice": [{ "manipulated": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000003" } }] } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000003", "request": { "method": "POST", "url": "Device", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cd-drain" },
      "resource": { "resourceType": "Device", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "d-drain" }], "lotNumber": "L-17",
        "patient": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" } } },
    { "fullUrl": "urn:uuid:00000000-0000-4000-8000-000000000004", "request": { "method": "POST", "url": "Observation", "ifNoneExist": "identifier=urn%3Aoid%3A2.16.840.1.113883.19.5.1%7Cd-dose" },
      "resource": { "resourceType": "Observation", "identifier": [{ "system": "urn:oid:2.16.840.1.113883.19.5.1", "value": "d-dose" }], "status": "final",
        "code": { "text": "dose area product" }, "subject": { "reference": "urn:uuid:00000000-0000-4000-8000-000000000001" },
        "valueQuantity": { "value": 4.20, "unit": "Gy.cm2" } } }
  ] }', 'sha256:208f641946fea1fbeedd2ec89de602e3e46c02a7fbdbed296e009549c7b1b678', '{"sources":[]}', 'discarded', 1710410400000, 1710410400000, 0, NULL, 'entered twice', '{"reason":"entered twice","by":"a person","at":1710410400000,"findings":[]}', NULL, 0, 0);
INSERT INTO casetally.version VALUES (1);
SELECT pg_catalog.setval('casetally.item_sequence_seq', 5, true);
ALTER TABLE ONLY casetally.gate
    ADD CONSTRAINT gate_pkey PRIMARY KEY (destination);
ALTER TABLE ONLY casetally.item
    ADD CONSTRAINT item_id_key UNIQUE (id);
ALTER TABLE ONLY casetally.item
    ADD CONSTRAINT item_pkey PRIMARY KEY (sequence);
CREATE INDEX item_case ON casetally.item USING btree (destination, case_key, sequence);
CREATE INDEX item_open ON casetally.item USING btree (destination, sequence) WHERE (state = ANY (ARRAY['waiting'::text, 'sending'::text]));
CREATE INDEX item_patient ON casetally.item USING btree (destination, patient_key, sequence) WHERE (state = ANY (ARRAY['waiting'::text, 'sending'::text]));
