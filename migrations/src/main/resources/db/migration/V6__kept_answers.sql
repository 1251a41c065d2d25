-- An answer that was given is not changed afterwards, and goes away only when it is due.

create function only_expired() returns trigger language plpgsql as $$
begin
  if old.at <= now() - interval '24 hours' then
    return old;
  end if;
  raise exception 'kept_answers is append-only: delete refused before 24 hours are over' using errcode = 'restrict_violation';
end $$;

create trigger only_expired before delete on kept_answers for each row execute function only_expired();
create trigger append_only before update on kept_answers for each row execute function refuse_change();
create trigger no_truncate before truncate on kept_answers for each statement execute function refuse_change();
