-- What the role of the running service may do with the tables of the current schema, and no more: read all, add, decide on what was proposed, purge kept answers
-- that are due. It can't alter the schema, and what is history it can add to but not change. Run after every migration, as the role that owns the tables; the
-- name of the service's role is taken from the setting understock.service_role:
--   begin; set local understock.service_role = 'understock_service'; \i service.sql; commit;
do $$
declare
  service text := current_setting('understock.service_role');
  home text := current_schema();
  found_role pg_roles%rowtype;
  owned text;
  tab text;
begin
  select * into found_role from pg_roles where rolname = service;
  if not found then
    raise exception 'there is no role %: make it first, or tell its password so that it can be made', service;
  end if;
  if found_role.rolsuper or found_role.rolcreaterole or found_role.rolbypassrls or found_role.rolreplication then
    raise exception 'role % can do more than a service may: it must not be superuser, make roles, bypass row security or replicate', service;
  end if;
  select relname into owned from pg_class where relnamespace = home::regnamespace and pg_has_role(service, relowner, 'member') limit 1;
  if owned is not null then
    raise exception 'role % owns % or is a member of its owner: it could alter the schema', service, owned;
  end if;

  execute format('revoke create on schema %I from public, %I', home, service);
  execute format('revoke create, temporary on database %I from public, %I', current_database(), service);
  execute format('grant connect on database %I to %I', current_database(), service);
  execute format('grant usage on schema %I to %I', home, service);
  execute format('revoke all on all tables in schema %I from %I', home, service);
  execute format('grant select on all tables in schema %I to %I', home, service);

  -- Added to, never changed. Who, what and why come from the service, the number and the time of an entry from the database alone.
  execute format('grant insert (actor, action, subject, revision, detail, request) on audit to %I', service);
  foreach tab in array array['revisions', 'trials'] loop
    execute format('grant insert on %I to %I', tab, service);
  end loop;
  -- The catalogue is added to; a row is told the revision that first contains it.
  foreach tab in array array['stocks', 'stock_crops', 'stock_names', 'varieties', 'variety_names', 'sources'] loop
    execute format('grant insert, update (since_revision) on %I to %I', tab, service);
  end loop;
  -- Proposals are amended, reviewed and superseded, imports tell how far they are; triggers hold both to their ways.
  foreach tab in array array['records', 'imports'] loop
    execute format('grant insert, update on %I to %I', tab, service);
  end loop;
  -- Update is asked for by "for update", which keeps two purges apart; a trigger refuses every real one.
  execute format('grant insert, update, delete on kept_answers to %I', service);
end $$;
