-- History can't be rewritten, whoever holds the connection.

create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception '% is append-only: % refused', tg_table_name, lower(tg_op) using errcode = 'restrict_violation';
end $$;

-- Rows of the catalogue change once: when the revision that first contains them is made.
create function only_first_revision() returns trigger language plpgsql as $$
begin
  if old.since_revision is null and new.since_revision is not null
     and to_jsonb(new) - 'since_revision' = to_jsonb(old) - 'since_revision' then
    return new;
  end if;
  raise exception '% is append-only: update refused', tg_table_name using errcode = 'restrict_violation';
end $$;

do $$
declare
  name text;
begin
  foreach name in array array['revisions', 'crops', 'trait_subjects', 'trait_levels', 'trials', 'audit'] loop
    execute format('create trigger append_only before update or delete on %I for each row execute function refuse_change()', name);
  end loop;
  foreach name in array array['traits', 'stocks', 'stock_crops', 'stock_names', 'varieties', 'variety_names', 'sources', 'orderings'] loop
    execute format('create trigger append_only before delete on %I for each row execute function refuse_change()', name);
    execute format('create trigger first_revision before update on %I for each row execute function only_first_revision()', name);
  end loop;
  foreach name in array array['revisions', 'crops', 'traits', 'trait_subjects', 'trait_levels', 'stocks', 'stock_crops', 'stock_names', 'varieties',
                              'variety_names', 'sources', 'trials', 'records', 'orderings', 'audit'] loop
    execute format('create trigger no_truncate before truncate on %I for each statement execute function refuse_change()', name);
  end loop;
end $$;

-- Revisions are numbered without gaps and chained by their digests.
create function next_revision() returns trigger language plpgsql as $$
declare
  last revisions%rowtype;
begin
  perform pg_advisory_xact_lock(hashtext('understock.revisions'));
  select * into last from revisions order by number desc limit 1;
  if new.number <> coalesce(last.number, 0) + 1 then
    raise exception 'revision % does not follow revision %', new.number, coalesce(last.number, 0) using errcode = 'check_violation';
  end if;
  if new.previous_digest is distinct from last.digest then
    raise exception 'revision % is not chained to the digest of revision %', new.number, last.number using errcode = 'check_violation';
  end if;
  return new;
end $$;

create trigger next_revision before insert on revisions for each row execute function next_revision();

-- Values stay inside the range that the trait gives.
create function value_in_range() returns trigger language plpgsql as $$
declare
  t traits%rowtype;
begin
  if new.scale in ('levels', 'names') then -- a figure there is refused by value_fits_scale
    return new;
  end if;
  select * into t from traits where id = new.trait;
  if found and not (coalesce(new.value_low, t.min_value) between t.min_value and t.max_value
                    and coalesce(new.value_high, t.max_value) between t.min_value and t.max_value) then
    raise exception 'value of % must lie between % and % %', new.trait, t.min_value, t.max_value, t.unit using errcode = 'check_violation';
  end if;
  return new;
end $$;

create trigger value_in_range before insert or update on records for each row execute function value_in_range();

-- A proposal may be edited; once reviewed only its standing changes, and only forward.
create function record_standing() returns trigger language plpgsql as $$
declare
  standing text[] := array['status', 'revision_from', 'revision_to', 'version'];
begin
  if old.status = 'proposed' and new.status = 'proposed' and new.id = old.id then
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

create trigger record_standing before update on records for each row execute function record_standing();
create trigger append_only before delete on records for each row execute function refuse_change();
