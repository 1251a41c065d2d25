-- The life of a record: who proposed it, who changed it, who reviewed it; and requests that must not be carried out twice.

alter table records
  add column content_key text collate "C" check (content_key ~ '^[0-9a-f]{16}$'),
  add column edited_by   text check (edited_by <> ''),
  add column edited_at   timestamptz,
  add column reviewed_by text check (reviewed_by <> ''),
  add column reviewed_at timestamptz,
  add column review_note text,
  add constraint review_is_whole check ((reviewed_by is null) = (reviewed_at is null));

-- Ids made so far are made of the content. An amended proposal keeps its id, so from now on the two are held apart.
alter table records disable trigger record_standing;
update records set content_key = substr(id, 3);
alter table records enable trigger record_standing;
alter table records alter column content_key set not null;
comment on column records.content_key is 'First 16 hexadecimal digits of the SHA-256 of the canonical text: the same statement has the same key.';

create index records_by_content on records (content_key);
create unique index one_living_record_per_statement on records (content_key) where status in ('proposed', 'accepted');
create index records_by_time on records (proposed_at, id);
create index records_by_revision_from on records (revision_from);
create index records_by_revision_to on records (revision_to) where revision_to is not null;

alter table sources   add column proposed_by text not null default 'starter-evidence' check (proposed_by <> ''), add column proposed_at timestamptz not null default now();
alter table stocks    add column proposed_by text not null default 'starter-evidence' check (proposed_by <> ''), add column proposed_at timestamptz not null default now();
alter table varieties add column proposed_by text not null default 'starter-evidence' check (proposed_by <> ''), add column proposed_at timestamptz not null default now();

-- The digest of a revision is made of what the revision contains, so the revision's own row comes last: what points to it is checked at the commit.
do $$
declare
  c record;
begin
  for c in select conrelid::regclass as tab, conname from pg_constraint where contype = 'f' and confrelid = 'revisions'::regclass and conrelid <> 'revisions'::regclass loop
    execute format('alter table %s alter constraint %I deferrable initially deferred', c.tab, c.conname);
  end loop;
end $$;

-- A proposal may be edited; once reviewed only its standing changes, and only forward.
create or replace function record_standing() returns trigger language plpgsql as $$
declare
  standing text[] := array['status', 'revision_from', 'revision_to', 'version', 'reviewed_by', 'reviewed_at', 'review_note'];
begin
  new.version := old.version + 1;
  if old.status = 'proposed' and new.status = 'proposed' and new.id = old.id and new.proposed_by = old.proposed_by and new.proposed_at = old.proposed_at then
    return new;
  end if;
  if to_jsonb(new) - standing <> to_jsonb(old) - standing then
    raise exception 'record % is %: its content can''t be changed; supersede it', old.id, old.status using errcode = 'restrict_violation';
  end if;
  if (old.status, new.status) in (('proposed', 'accepted'), ('proposed', 'rejected'), ('accepted', 'withdrawn'), ('accepted', 'superseded'))
     and (old.revision_from is null or old.revision_from = new.revision_from) then
    return new;
  end if;
  raise exception 'record % can''t go from % to %', old.id, old.status, new.status using errcode = 'restrict_violation';
end $$;

alter table audit add column request text;
create index audit_by_subject on audit (subject, id);
create index audit_by_actor on audit (actor, id);
comment on column audit.request is 'Id of the HTTP request, as in the log and in problems.';

-- Answers to requests that carried an Idempotency-Key, written in the transaction of their effect.
create table kept_answers (
  actor       text collate "C" not null,
  operation   text collate "C" not null,
  key         text collate "C" not null check (key ~ '^[A-Za-z0-9._~-]{1,128}$'),
  fingerprint text collate "C" not null check (fingerprint ~ '^[0-9a-f]{64}$'),
  status      integer not null check (status between 200 and 499),
  headers     text not null,
  body        bytea not null,
  at          timestamptz not null default now(),
  primary key (actor, operation, key)
);
create index kept_answers_by_age on kept_answers (at);
comment on table kept_answers is 'Purged by age; the only table whose rows go away.';
