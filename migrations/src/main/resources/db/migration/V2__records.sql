-- Published statements. A row is refused here unless it means something: the trait must fit the subject, the value the trait's scale, unit, range and
-- levels, the context must be possible, and there must be a source and a place in it.

create table records (
  id            text collate "C" primary key check (id ~ '^r-[0-9a-f]{16}$'),
  status        text not null check (status in ('proposed', 'accepted', 'rejected', 'withdrawn', 'superseded')),
  crop          text collate "C" not null references crops (id),
  subject       text not null,
  stock         text collate "C" references stocks (id),
  variety       text collate "C",
  reach         text check (reach in ('named', 'all', 'most', 'some')),
  trait         text collate "C" not null,
  scale         text not null,
  unit          text not null,
  value_low     double precision,
  value_high    double precision,
  level         text collate "C",
  value_name    text check (value_name <> ''),
  method        text not null check (method in ('replicated-multi-site', 'replicated-single-site', 'expert-rating', 'breeder-statement',
                                                'grower-observation', 'common-practice', 'from-memory')),
  source        text collate "C" not null references sources (id),
  locator       text not null check (btrim(locator) <> ''),
  trial         text collate "C" references trials (id),
  site          text check (site <> ''),
  scion         text check (scion <> ''),
  planted_year  integer check (planted_year between 1800 and 2100),
  measured_year integer check (measured_year between 1800 and 2100),
  trees         integer check (trees >= 1),
  spread_kind   text check (spread_kind in ('SE', 'SD', 'HSD', 'LSD')),
  spread_value  double precision check (spread_value > 0 and spread_value < 'infinity'),
  interstem     text check (interstem <> ''),
  age_years     integer check (age_years between 0 and 300),
  relative_to   text check (relative_to <> ''),
  note          text not null,
  supersedes    text collate "C" references records (id) check (supersedes <> id),
  revision_from bigint references revisions (number),
  revision_to   bigint references revisions (number),
  proposed_by   text not null check (proposed_by <> ''),
  proposed_at   timestamptz not null default now(),
  version       bigint not null default 0,

  foreign key (variety, crop) references varieties (id, crop),
  foreign key (trait, subject) references trait_subjects (trait, subject),
  foreign key (trait, scale) references traits (id, scale),
  foreign key (trait, unit) references traits (id, unit),
  foreign key (trait, level) references trait_levels (trait, level),

  constraint subject_is_whole check (case subject
    when 'stock' then stock is not null and variety is null and reach is null
    when 'variety' then variety is not null and stock is null and reach is null
    when 'pairing' then stock is not null and reach is not null and (variety is not null) = (reach = 'named')
    else false end),
  constraint value_fits_scale check (case scale
    when 'levels' then level is not null and value_name is null and value_low is null and value_high is null
    when 'names' then value_name is not null and level is null and value_low is null and value_high is null
    when 'contrast' then value_low is not null and value_high is not null and value_low = value_high and level is null and value_name is null
    else (value_low is not null or value_high is not null) and level is null and value_name is null end),
  constraint range_runs_up check (value_low <= value_high),
  constraint years_run_up check (measured_year >= planted_year),
  constraint spread_is_whole check ((spread_kind is null) = (spread_value is null)),
  constraint memory_is_tagged check ((source = 'memory') = (method = 'from-memory')),
  constraint common_practice_is_tagged check ((source = 'common-practice') = (method = 'common-practice')),
  constraint difference_names_its_zero check (trait not in ('bloom-day', 'harvest-offset') or relative_to is not null),
  constraint yield_has_its_age check (trait <> 'yield-at-age' or age_years is not null),
  constraint status_fits_revisions check (case
    when status in ('proposed', 'rejected') then revision_from is null and revision_to is null
    when status = 'accepted' then revision_from is not null and revision_to is null
    else revision_from is not null and revision_to is not null and revision_to > revision_from end)
);

create index records_by_stock on records (crop, stock, trait);
create index records_by_variety on records (crop, variety, trait) where variety is not null;
create index records_by_source on records (source);
create index records_by_status on records (status, id);

create table orderings (
  source  text collate "C" not null references sources (id),
  trial   text collate "C" not null references trials (id),
  crop    text collate "C" not null references crops (id),
  scion   text collate "C" not null check (scion <> ''),
  site    text collate "C" not null check (site <> ''),
  trait   text collate "C" not null references traits (id),
  place   integer not null check (place >= 1),
  stock   text collate "C" not null references stocks (id),
  locator text not null check (btrim(locator) <> ''),
  note    text not null,
  since_revision bigint references revisions (number),
  primary key (source, trial, crop, scion, site, trait, place, stock)
);
comment on table orderings is 'Published orders of stocks without figures; place 1 is the smallest, one place means not told apart.';

create view compatibility as
  select id, crop, stock, variety, reach, level as verdict, interstem, method, source, locator, note, revision_from, revision_to
  from records
  where trait = 'compatibility' and status in ('accepted', 'withdrawn', 'superseded');

create table audit (
  id      bigint generated always as identity primary key,
  at      timestamptz not null default now(),
  actor   text not null check (actor <> ''),
  action  text not null check (action <> ''),
  subject text not null,
  revision bigint references revisions (number),
  detail  text not null
);
