-- Files that were sent to be imported: what came of each, and which proposals came with it.

create table imports (
  id          text collate "C" primary key check (id ~ '^i-[0-9a-f]{16}$'),
  kind        text collate "C" not null check (kind <> ''),
  format      text not null check (format in ('text/csv', 'application/x-ndjson')),
  mode        text not null check (mode in ('all-or-nothing', 'row-by-row')),
  bytes       bigint not null check (bytes >= 0),
  body_digest text not null check (body_digest ~ '^[0-9a-f]{64}$'),
  actor       text not null check (actor <> ''),
  request     text not null,
  status      text not null default 'running' check (status in ('running', 'finished', 'refused', 'failed')),
  rows_read   bigint not null default 0,
  proposed    bigint not null default 0,
  duplicates  bigint not null default 0,
  refused     bigint not null default 0,
  started_at  timestamptz not null default now(),
  heard_at    timestamptz not null default now(),
  finished_at timestamptz,
  check ((status = 'running') = (finished_at is null))
);
create index imports_by_time on imports (started_at, id);
comment on column imports.heard_at is 'When the running import last told how far it is; one that has not told for long was interrupted and left nothing.';

create trigger append_only before delete on imports for each row execute function refuse_change();
create trigger no_truncate before truncate on imports for each statement execute function refuse_change();

alter table records   add column import_id text collate "C" references imports (id);
alter table sources   add column import_id text collate "C" references imports (id);
alter table stocks    add column import_id text collate "C" references imports (id);
alter table varieties add column import_id text collate "C" references imports (id);
create index records_by_import on records (import_id, id) where import_id is not null;
