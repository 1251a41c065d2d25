-- Revisions, and what the evidence speaks of: crops, traits, stocks, varieties, sources, trials.
-- Ids are lower-case slugs. Columns that are sorted by carry COLLATE "C", so that no order depends on the server's locale.

create table revisions (
  number          bigint primary key check (number >= 1),
  digest          text collate "C" not null unique check (digest ~ '^[0-9a-f]{64}$'),
  previous_digest text collate "C" references revisions (digest),
  note            text not null check (note <> ''),
  created_by      text not null check (created_by <> ''),
  created_at      timestamptz not null default now(),
  check ((number = 1) = (previous_digest is null))
);
comment on table revisions is 'Numbered states of the accepted evidence; each digest is a SHA-256 over the one before and what changed.';

create table crops (
  id   text collate "C" primary key check (id ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
  name text not null check (name <> ''),
  species text not null check (species <> '')
);

create table traits (
  id         text collate "C" primary key check (id ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
  name       text not null check (name <> ''),
  definition text not null check (definition <> ''),
  scale      text not null check (scale in ('contrast', 'quantity', 'interval', 'levels', 'names')),
  unit       text not null,
  min_value  double precision not null,
  max_value  double precision not null,
  since_revision bigint references revisions (number),
  check (min_value <= max_value),
  check ((scale in ('levels', 'names')) = (unit = '')),
  unique (id, scale),
  unique (id, unit)
);

create table trait_subjects (
  trait   text collate "C" not null references traits (id),
  subject text not null check (subject in ('stock', 'variety', 'pairing')),
  primary key (trait, subject)
);

create table trait_levels (
  trait    text collate "C" not null,
  scale    text not null default 'levels' check (scale = 'levels'),
  position integer not null check (position >= 0),
  level    text collate "C" not null check (level ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
  primary key (trait, level),
  unique (trait, position),
  foreign key (trait, scale) references traits (id, scale)
);
comment on column trait_levels.position is '0 is the lowest: least of what the trait''s name says.';

create table stocks (
  id       text collate "C" primary key check (id ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
  name     text not null check (name <> ''),
  kind     text not null check (kind in ('clone', 'seedling', 'interstem', 'own-roots', 'class')),
  clone_of text collate "C" references stocks (id) check (clone_of <> id),
  since_revision bigint references revisions (number)
);

create table stock_crops (
  stock text collate "C" not null references stocks (id),
  crop  text collate "C" not null references crops (id),
  since_revision bigint references revisions (number),
  primary key (stock, crop)
);

create table stock_names (
  stock text collate "C" not null references stocks (id),
  name  text collate "C" not null check (name <> ''),
  since_revision bigint references revisions (number),
  primary key (stock, name)
);
comment on table stock_names is 'Other spellings and trade designations: search only.';

create table varieties (
  id   text collate "C" primary key check (id ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
  crop text collate "C" not null references crops (id),
  name text not null check (name <> ''),
  since_revision bigint references revisions (number),
  unique (id, crop)
);

create table variety_names (
  variety text collate "C" not null references varieties (id),
  name    text collate "C" not null check (name <> ''),
  since_revision bigint references revisions (number),
  primary key (variety, name)
);

create table sources (
  id          text collate "C" primary key check (id ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
  kind        text not null check (kind in ('peer-reviewed-trial', 'peer-reviewed-review', 'extension-bulletin', 'breeder-release', 'handbook', 'dataset',
                                            'common-practice', 'memory')),
  title       text not null check (title <> ''),
  authors     text not null,
  year        text check (year ~ '^[0-9]{4}([-/][0-9]{2,4})?$'),
  publication text not null,
  doi_or_isbn text check (doi_or_isbn <> ''),
  url         text check (url ~ '^https?://'),
  note        text not null,
  origin      text collate "C" references sources (id) check (origin <> id),
  since_revision bigint references revisions (number),
  -- The two that stand for no publication are one source each.
  check ((kind = 'memory') = (id = 'memory')),
  check ((kind = 'common-practice') = (id = 'common-practice'))
);
comment on column sources.origin is 'The source that this one restates: both are one voice.';

create table trials (
  id text collate "C" primary key check (id <> '')
);
