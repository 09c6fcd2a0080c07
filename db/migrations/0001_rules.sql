-- What keys and checks cannot say: the rules that look at another table, the tallies, and who may touch what.
-- Every trigger function names its search_path: else a temporary table, which anybody may make, would be read in place of ours.

-- Whether this session is the service's own login: one that cannot work as the owner of the tables, who made this function.
create function works_for_the_service() returns boolean language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select not pg_has_role(session_user, current_user, 'member')
$$;
--> statement-breakpoint

-- Names that look the same are the same: compatible forms, capitals and runs of spaces make no difference. Capitals by
-- Unicode, whatever locale the database has.
create function folded(name text) returns text language sql immutable strict parallel safe
return lower(trim(regexp_replace(normalize(name, nfkc), '\s+', ' ', 'g')) collate "und-x-icu");
--> statement-breakpoint
create unique index people_name on people (folded(name));
--> statement-breakpoint

-- A result is added while a lot is being tested, and may be corrected until its last decision. An entry carries the lot's version of its time,
-- and never a time before the lot's last one, wherever the machine's clock stands.
create function refuse_result_outside_testing() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  lot record;
begin
  select state, version, moved_at into lot from lots where id = new.lot_id;
  if lot.state in ('drawn', 'screening') or (lot.state = 'screened' and tg_op = 'UPDATE') then
    if tg_op = 'INSERT' or new.entry <> old.entry then
      new.lot_version := lot.version;
      -- The default is a time of this very transaction; only another one is asked about, as a file brings many rows.
      if new.recorded_at not between greatest(lot.moved_at, transaction_timestamp()) and clock_timestamp() and works_for_the_service() then
        new.recorded_at := greatest(clock_timestamp(), lot.moved_at);
      end if;
    else
      new.lot_version := old.lot_version;
    end if;
    return new;
  end if;
  raise exception 'lot % is not being tested', new.lot_id using errcode = 'check_violation', constraint = 'results_while_tested';
end $$;
--> statement-breakpoint
create trigger results_while_tested before insert or update on results
  for each row execute function refuse_result_outside_testing();
--> statement-breakpoint

-- A drawn position lies in the lot. Cords come by the hundred thousand: looked at once a statement, not once a row.
create function refuse_position_outside_lot() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  outside record;
begin
  select a.lot_id, a.position into outside
    from (select lot_id, max(position) as position from added group by lot_id) a
    join plans p on p.lot_id = a.lot_id and a.position > p.lot_size limit 1;
  if found then
    raise exception 'position % is outside lot %', outside.position, outside.lot_id using errcode = 'check_violation', constraint = 'drawn_cords_inside_the_lot';
  end if;
  return null;
end $$;
--> statement-breakpoint
create trigger drawn_cords_inside_the_lot after insert on drawn_cords referencing new table as added
  for each statement execute function refuse_position_outside_lot();
--> statement-breakpoint
create trigger drawn_cords_moved_inside_the_lot after update on drawn_cords referencing new table as added
  for each statement execute function refuse_position_outside_lot();
--> statement-breakpoint

-- Who recorded results of a lot does not decide on it, unless the firm has switched that rule off.
create function refuse_decision_by_recorder() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if new.duties_separated and (
    exists (select from results where lot_id = new.lot_id and recorded_by = new.decided_by)
    or exists (select from earlier_results where lot_id = new.lot_id and (recorded_by = new.decided_by or corrected_by = new.decided_by))
  ) then
    raise exception 'person % recorded results of lot %', new.decided_by, new.lot_id using errcode = 'check_violation', constraint = 'decisions_by_another_person';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger decisions_by_another_person before insert on decisions
  for each row execute function refuse_decision_by_recorder();
--> statement-breakpoint

-- A plan, a draw, an earlier entry, a decision and the audit are never changed or removed: the statement itself is refused.
create function refuse_change() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  raise exception '% keeps its rows as they were written', tg_table_name using errcode = 'check_violation', constraint = 'written_once';
end $$;
--> statement-breakpoint
create trigger written_once before update or delete or truncate on plans for each statement execute function refuse_change();
--> statement-breakpoint
create trigger written_once before update or delete or truncate on draws for each statement execute function refuse_change();
--> statement-breakpoint
create trigger written_once before update or delete or truncate on earlier_results for each statement execute function refuse_change();
--> statement-breakpoint
create trigger written_once before update or delete or truncate on decisions for each statement execute function refuse_change();
--> statement-breakpoint
create trigger written_once before update or delete or truncate on audit for each statement execute function refuse_change();
--> statement-breakpoint
create trigger written_once before update or delete or truncate on series_notes for each statement execute function refuse_change();
--> statement-breakpoint

-- Tallies: one update a statement, from the rows that it wrote.
create type tally_change as (
  lot_id integer, sample_recorded integer, sample_nonconforming integer, rest_recorded integer, rest_nonconforming integer,
  not_tested integer, sample_not_tested integer, missing integer, marginal integer, crosstalk_short integer, return_loss_short integer, wire_map_at_fault integer, visual_at_fault integer
);
--> statement-breakpoint
create function tally_of(r results) returns tally_change language sql stable as $$
  select r.lot_id,
    (r.counts and d.purpose <> 'rest')::int, (r.counts and d.purpose <> 'rest' and r.nonconforming)::int,
    (r.counts and d.purpose = 'rest')::int, (r.counts and d.purpose = 'rest' and r.nonconforming)::int,
    (r.counts and r.kind <> 'tested')::int, (r.counts and r.kind <> 'tested' and d.purpose <> 'rest')::int, (r.kind = 'missing')::int, (r.state = 'marginal')::int,
    coalesce(r.crosstalk_margin < 0, false)::int, coalesce(r.return_loss_margin < 0, false)::int,
    coalesce(r.wire_map = 'at-fault', false)::int, coalesce(r.visual = 'at-fault', false)::int
  from drawn_cords d where d.lot_id = r.lot_id and d.position = r.position
$$;
--> statement-breakpoint
create function add_tally(sign integer, changes tally_change[]) returns void language sql as $$
  insert into tallies as t
  select c.lot_id, sign * sum(c.sample_recorded), sign * sum(c.sample_nonconforming), sign * sum(c.rest_recorded), sign * sum(c.rest_nonconforming),
    sign * sum(c.not_tested), sign * sum(c.sample_not_tested), sign * sum(c.missing), sign * sum(c.marginal), sign * sum(c.crosstalk_short), sign * sum(c.return_loss_short),
    sign * sum(c.wire_map_at_fault), sign * sum(c.visual_at_fault)
  from unnest(changes) c group by c.lot_id
  on conflict (lot_id) do update set
    sample_recorded = t.sample_recorded + excluded.sample_recorded,
    sample_nonconforming = t.sample_nonconforming + excluded.sample_nonconforming,
    rest_recorded = t.rest_recorded + excluded.rest_recorded,
    rest_nonconforming = t.rest_nonconforming + excluded.rest_nonconforming,
    not_tested = t.not_tested + excluded.not_tested,
    sample_not_tested = t.sample_not_tested + excluded.sample_not_tested,
    missing = t.missing + excluded.missing,
    marginal = t.marginal + excluded.marginal,
    crosstalk_short = t.crosstalk_short + excluded.crosstalk_short,
    return_loss_short = t.return_loss_short + excluded.return_loss_short,
    wire_map_at_fault = t.wire_map_at_fault + excluded.wire_map_at_fault,
    visual_at_fault = t.visual_at_fault + excluded.visual_at_fault
$$;
--> statement-breakpoint
create function tally_inserted() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  perform add_tally(1, (select array_agg(tally_of(a)) from added a));
  return null;
end $$;
--> statement-breakpoint
create function tally_updated() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  perform add_tally(-1, (select array_agg(tally_of(r)) from removed r));
  perform add_tally(1, (select array_agg(tally_of(a)) from added a));
  return null;
end $$;
--> statement-breakpoint
create trigger tally_inserted after insert on results referencing new table as added for each statement execute function tally_inserted();
--> statement-breakpoint
create trigger tally_updated after update on results referencing old table as removed new table as added for each statement execute function tally_updated();
--> statement-breakpoint

-- Spool tallies: the same, one upsert a statement.
create function spool_tally_inserted() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into spool_tallies as t
  select lot_id, spool, count(*), count(*) filter (where nonconforming)
  from added where spool is not null and kind = 'tested' group by lot_id, spool
  on conflict (lot_id, spool) do update set
    recorded = t.recorded + excluded.recorded,
    nonconforming = t.nonconforming + excluded.nonconforming;
  return null;
end $$;
--> statement-breakpoint
create function spool_tally_updated() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into spool_tallies as t
  select lot_id, spool, sum(sign), coalesce(sum(sign) filter (where nonconforming), 0)
  from (
    select -1 as sign, lot_id, spool, kind, nonconforming from removed
    union all
    select 1, lot_id, spool, kind, nonconforming from added
  ) changed where spool is not null and kind = 'tested' group by lot_id, spool
  on conflict (lot_id, spool) do update set
    recorded = t.recorded + excluded.recorded,
    nonconforming = t.nonconforming + excluded.nonconforming;
  return null;
end $$;
--> statement-breakpoint
create trigger spool_tally_inserted after insert on results referencing new table as added for each statement execute function spool_tally_inserted();
--> statement-breakpoint
create trigger spool_tally_updated after update on results referencing old table as removed new table as added for each statement execute function spool_tally_updated();
--> statement-breakpoint

-- Every change of a lot raises its version and its time, which never goes back. The owner may say another time: a test, a restored lot.
create function move_lot() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  new.version := old.version + 1;
  if works_for_the_service() or new.moved_at = old.moved_at then
    new.moved_at := greatest(clock_timestamp(), old.moved_at, new.moved_at);
    if new.state <> old.state then
      -- what was signed for this step is of the same transaction: should the clock step back within it, the signature still comes first
      new.moved_at := greatest(new.moved_at,
        (select frozen_at from plans where lot_id = new.id), (select drawn_at from draws where lot_id = new.id),
        (select max(decided_at) from decisions where lot_id = new.id));
    end if;
  end if;
  if works_for_the_service() and new.received_at is distinct from old.received_at then
    new.received_at := new.moved_at;
  end if;
  if works_for_the_service() and new.withdrawn_at is distinct from old.withdrawn_at then
    new.withdrawn_at := new.moved_at;
  end if;
  new.done_at := case when new.state in ('accepted', 'conceded', 'sorted', 'returned', 'withdrawn') then new.moved_at end;
  return new;
end $$;
--> statement-breakpoint
create trigger lots_moved before update on lots for each row execute function move_lot();
--> statement-breakpoint

-- Work at the bench moves its lot too: once a statement, so that a file of results costs one change. A first entry is number 1 and counts.
create function move_lot_by_entries() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  if tg_op = 'INSERT' and works_for_the_service() and exists (select from added where entry <> 1 or not counts) then
    raise exception 'a cord begins with entry 1' using errcode = 'check_violation', constraint = 'results_with_their_past';
  end if;
  update lots l set moved_at = greatest(l.moved_at, e.at)
  from (select lot_id, max(recorded_at) as at from added group by lot_id) e where l.id = e.lot_id;
  return null;
end $$;
--> statement-breakpoint
create trigger lot_moved_by_new_entries after insert on results referencing new table as added
  for each statement execute function move_lot_by_entries();
--> statement-breakpoint
create trigger lot_moved_by_changed_entries after update on results referencing new table as added
  for each statement execute function move_lot_by_entries();
--> statement-breakpoint

-- The service's logins, one a database, are members of this role and have its rights; it may not remove history. The owner of
-- a database makes it; several databases of one server share it. Where the owner may make no roles, an administrator has made it.
do $$ begin
  if not exists (select from pg_roles where rolname = 'cordsift_service') then
    create role cordsift_service nologin;
  end if;
exception when duplicate_object or unique_violation then null;
end $$;
--> statement-breakpoint

-- What the password of this database's login is made with, besides the owner's. Nobody but the owner reads it.
create table service_login (id integer primary key default 1 check (id = 1), salt text not null);
--> statement-breakpoint
insert into service_login (salt) values (replace(gen_random_uuid()::text || gen_random_uuid()::text, '-', ''));
--> statement-breakpoint
grant usage on schema drizzle to cordsift_service;
--> statement-breakpoint
grant select on drizzle.__drizzle_migrations to cordsift_service;
--> statement-breakpoint
grant usage on schema public to cordsift_service;
--> statement-breakpoint
grant select, insert on people, sessions, password_attempts, one_time_links, event_counts, firms, submissions, suppliers, items, lots, plans, draws, drawn_cords, results, earlier_results, decisions, audit, series_notes to cordsift_service;
--> statement-breakpoint
grant select on tallies, spool_tallies to cordsift_service;
--> statement-breakpoint
grant update on password_attempts, event_counts to cordsift_service;
--> statement-breakpoint
grant update (role, password_hash, password_temporary, active) on people to cordsift_service;
--> statement-breakpoint
grant update (last_seen_at) on sessions to cordsift_service;
--> statement-breakpoint
grant update (used_at) on one_time_links to cordsift_service;
--> statement-breakpoint
grant update (name, category_claimed, cord_limit, length_metres, marginal_policy, crosstalk_accuracy, return_loss_accuracy, too_many, catch_of100,
  cost_test_cents, cost_escape_cents, cost_return_cents, critical, acceptance_quality_limit, inspection_level, version) on items to cordsift_service;
--> statement-breakpoint
grant update (supplier_id, item_id, announced_size, cartons, cords_in_carton, production_mark, purchase_order, isolated, size, received_by, received_at,
  receipt_note, state, withdrawn_by, withdrawn_at, withdrawal_reason) on lots to cordsift_service;
--> statement-breakpoint
grant update (kind, crosstalk_margin, return_loss_margin, wire_map, visual, state, nonconforming, note, carton, spool, tester_serial, recorded_by,
  counts, entry, recorded_at, form_key) on results to cordsift_service;
--> statement-breakpoint
grant delete on sessions, password_attempts, one_time_links, event_counts, submissions to cordsift_service;
--> statement-breakpoint
grant update (made) on submissions to cordsift_service;
--> statement-breakpoint

-- What follows binds the service's own login, whatever statement it sends: the verbs never try it. The owner is free, who brings back a backup
-- or plants the example, and could switch every trigger off.

-- A number comes from its sequence: "overriding system value" would put a line before those that stand.
create function refuse_chosen_number() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  if new.id is distinct from currval(tg_argv[0]::regclass) then
    raise exception '% numbers its rows itself', tg_table_name using errcode = 'check_violation', constraint = 'numbered_by_the_database';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger numbered_by_the_database before insert on people for each row when (works_for_the_service()) execute function refuse_chosen_number('people_id_seq');
--> statement-breakpoint
create trigger numbered_by_the_database before insert on suppliers for each row when (works_for_the_service()) execute function refuse_chosen_number('suppliers_id_seq');
--> statement-breakpoint
create trigger numbered_by_the_database before insert on items for each row when (works_for_the_service()) execute function refuse_chosen_number('items_id_seq');
--> statement-breakpoint
create trigger numbered_by_the_database before insert on lots for each row when (works_for_the_service()) execute function refuse_chosen_number('lots_id_seq');
--> statement-breakpoint
create trigger numbered_by_the_database before insert on audit for each row when (works_for_the_service()) execute function refuse_chosen_number('audit_id_seq');
--> statement-breakpoint
create trigger numbered_by_the_database before insert on series_notes for each row when (works_for_the_service()) execute function refuse_chosen_number('series_notes_id_seq');
--> statement-breakpoint

-- A time is the database's own. The argument names the column; the larger tables have their own functions below.
create function date_by_the_clock() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  return jsonb_populate_record(new, jsonb_build_object(tg_argv[0], clock_timestamp()));
end $$;
--> statement-breakpoint
create trigger dated_by_the_database before insert on people for each row when (works_for_the_service()) execute function date_by_the_clock('created_at');
--> statement-breakpoint
create trigger dated_by_the_database before insert on one_time_links for each row when (works_for_the_service()) execute function date_by_the_clock('created_at');
--> statement-breakpoint
create trigger dated_by_the_database before insert on suppliers for each row when (works_for_the_service()) execute function date_by_the_clock('created_at');
--> statement-breakpoint
create trigger dated_by_the_database before insert on items for each row when (works_for_the_service()) execute function date_by_the_clock('created_at');
--> statement-breakpoint
create trigger dated_by_the_database before insert on series_notes for each row when (works_for_the_service()) execute function date_by_the_clock('at');
--> statement-breakpoint
create trigger dated_by_the_database before insert on submissions for each row when (works_for_the_service()) execute function date_by_the_clock('at');
--> statement-breakpoint

-- A session begins now and lasts a week at most; while it is used its time does not go back.
create function date_session() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if tg_op = 'UPDATE' then
    new.last_seen_at := greatest(clock_timestamp(), old.last_seen_at);
    return new;
  end if;
  new.created_at := clock_timestamp();
  new.last_seen_at := new.created_at;
  new.expires_at := least(new.expires_at, new.created_at + interval '7 days');
  return new;
end $$;
--> statement-breakpoint
create trigger dated_by_the_database before insert or update on sessions for each row when (works_for_the_service()) execute function date_session();
--> statement-breakpoint

-- The example is planted by the owner alone: the service makes no firm an example, whose people may have passwords that others know.
create function refuse_example_of_the_service() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if new.example then
    raise exception 'an example is planted by the owner of the database' using errcode = 'check_violation', constraint = 'example_by_the_owner';
  end if;
  new.created_at := clock_timestamp();
  return new;
end $$;
--> statement-breakpoint
create trigger example_by_the_owner before insert on firms for each row when (works_for_the_service()) execute function refuse_example_of_the_service();
--> statement-breakpoint

-- A line of the audit carries the person's own name, and a time that never goes back: that of the act itself where it moved a lot, so that all
-- lines of a lot stand in the order of their acts. Where the machine's clock stood behind, the line says by how much.
create function date_audit_line() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  clock timestamptz := clock_timestamp();
  moved timestamptz := (select moved_at from lots where id = substring(new.subject from '^lot/([0-9]{1,9})(?:/|$)')::int);
  before timestamptz := (select at from audit where subject = new.subject order by id desc limit 1);
begin
  new.at := greatest(case when moved >= transaction_timestamp() then moved else clock end, before);
  new.clock_behind := nullif(greatest(0, floor(extract(epoch from new.at - clock)))::int, 0);
  new.person_name := coalesce((select name from people where id = new.person_id), new.person_name);
  return new;
end $$;
--> statement-breakpoint
create trigger dated_by_the_database before insert on audit for each row when (works_for_the_service()) execute function date_audit_line();
--> statement-breakpoint

-- A lot begins as announced, now.
create function begin_lot() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if new.state <> 'announced' or new.size is not null or new.received_by is not null or new.withdrawn_by is not null then
    raise exception 'a lot begins as announced' using errcode = 'check_violation', constraint = 'lots_lifecycle';
  end if;
  new.announced_at := clock_timestamp();
  new.moved_at := new.announced_at;
  new.done_at := null;
  new.version := 1;
  return new;
end $$;
--> statement-breakpoint
create trigger begun_as_announced before insert on lots for each row when (works_for_the_service()) execute function begin_lot();
--> statement-breakpoint

-- A lot moves along the steps of app/lots/rules/lifecycle.ts (a test compares the two), each with the paper that stands for it. What was agreed
-- and counted is frozen with the plan; a lot that is done is never changed again.
create function refuse_step_outside_lifecycle() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if not (case old.state
    when 'announced' then new.state in ('announced', 'received', 'withdrawn')
    when 'received' then new.state in ('received', 'planned', 'withdrawn')
    when 'planned' then new.state in ('drawn', 'withdrawn')
    when 'drawn' then new.state in ('drawn', 'accepted', 'conceded', 'screening', 'returned', 'withdrawn')
    when 'screening' then new.state in ('screening', 'screened')
    when 'screened' then new.state in ('screened', 'sorted', 'returned')
    else false
  end) then
    raise exception 'lot % does not go from % to %', old.id, old.state, new.state using errcode = 'check_violation', constraint = 'lots_lifecycle';
  end if;
  if new.state <> old.state and not (case new.state
    when 'planned' then exists (select from plans where lot_id = new.id)
    when 'drawn' then exists (select from draws where lot_id = new.id)
    when 'screening' then exists (select from decisions where lot_id = new.id and after = 'sample' and outcome = 'screened')
    when 'screened' then new.size = (select sample_recorded + rest_recorded from tallies where lot_id = new.id)
      + (select count(*) from drawn_cords where lot_id = new.id and stands_in_for is not null)
    when 'accepted' then exists (select from decisions where lot_id = new.id and after = 'sample' and outcome = 'accepted')
    when 'conceded' then exists (select from decisions where lot_id = new.id and after = 'sample' and outcome = 'conceded')
    when 'sorted' then exists (select from decisions where lot_id = new.id and after = 'screening' and outcome = 'sorted')
    when 'returned' then exists (select from decisions where lot_id = new.id and outcome = 'returned'
      and after = case old.state when 'drawn' then 'sample'::decided_after else 'screening' end)
    else true
  end) then
    raise exception 'lot % has no paper for the step from % to %', old.id, old.state, new.state
      using errcode = 'check_violation', constraint = 'lots_step_with_its_paper';
  end if;
  if old.state not in ('announced', 'received') and
    (new.supplier_id, new.item_id, new.announced_size, new.cartons, new.cords_in_carton, new.production_mark, new.purchase_order, new.isolated)
    is distinct from
    (old.supplier_id, old.item_id, old.announced_size, old.cartons, old.cords_in_carton, old.production_mark, old.purchase_order, old.isolated)
    or not (old.state in ('announced', 'received') and new.state = 'received') and
      (new.size, new.received_by, new.received_at, new.receipt_note) is distinct from (old.size, old.received_by, old.received_at, old.receipt_note)
    or new.state <> 'withdrawn' and
      (new.withdrawn_by, new.withdrawn_at, new.withdrawal_reason) is distinct from (old.withdrawn_by, old.withdrawn_at, old.withdrawal_reason)
  then
    raise exception 'what was agreed and counted of lot % stays as it is', old.id using errcode = 'check_violation', constraint = 'lots_frozen';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger along_the_lifecycle before update on lots for each row when (works_for_the_service()) execute function refuse_step_outside_lifecycle();
--> statement-breakpoint

-- The paper for a step is written in the state before it, at the database's own time, and the step follows in the same transaction.
create function state_before(paper text, after decided_after) returns lot_state language sql immutable as $$
  select case paper when 'plans' then 'received'::lot_state when 'draws' then 'planned' else
    case after when 'sample' then 'drawn'::lot_state else 'screened' end end
$$;
--> statement-breakpoint
create function date_paper() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  lot record;
  expected lot_state;
begin
  select state, size, moved_at into lot from lots where id = new.lot_id;
  if tg_table_name = 'plans' then
    expected := state_before(tg_table_name, null);
    new.frozen_at := greatest(clock_timestamp(), lot.moved_at);
    if new.lot_size is distinct from lot.size then
      raise exception 'lot % was counted as % cords', new.lot_id, lot.size using errcode = 'check_violation', constraint = 'plans_size_as_counted';
    end if;
  elsif tg_table_name = 'draws' then
    expected := state_before(tg_table_name, null);
    new.drawn_at := greatest(clock_timestamp(), lot.moved_at);
  else
    expected := state_before(tg_table_name, new.after);
    new.decided_at := greatest(clock_timestamp(), lot.moved_at);
  end if;
  if lot.state is distinct from expected then
    raise exception 'lot % is % and takes no row of %', new.lot_id, lot.state, tg_table_name using errcode = 'check_violation', constraint = 'paper_in_its_state';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger paper_in_its_state before insert on plans for each row when (works_for_the_service()) execute function date_paper();
--> statement-breakpoint
create trigger paper_in_its_state before insert on draws for each row when (works_for_the_service()) execute function date_paper();
--> statement-breakpoint
create trigger paper_in_its_state before insert on decisions for each row when (works_for_the_service()) execute function date_paper();
--> statement-breakpoint
create function refuse_paper_without_its_step() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  expected lot_state;
begin
  if tg_table_name = 'decisions' then
    expected := state_before(tg_table_name, new.after);
  else
    expected := state_before(tg_table_name, null);
  end if;
  if (select state from lots where id = new.lot_id) = expected then
    raise exception 'lot % did not take the step of its new row of %', new.lot_id, tg_table_name using errcode = 'check_violation', constraint = 'paper_with_its_step';
  end if;
  return null;
end $$;
--> statement-breakpoint
create constraint trigger paper_with_its_step after insert on plans deferrable initially deferred for each row when (works_for_the_service()) execute function refuse_paper_without_its_step();
--> statement-breakpoint
create constraint trigger paper_with_its_step after insert on draws deferrable initially deferred for each row when (works_for_the_service()) execute function refuse_paper_without_its_step();
--> statement-breakpoint
create constraint trigger paper_with_its_step after insert on decisions deferrable initially deferred for each row when (works_for_the_service()) execute function refuse_paper_without_its_step();
--> statement-breakpoint

-- Cords are drawn while the lot is planned, stand-ins come while its sample is tested, and the rest when it is to be screened.
create function refuse_draw_out_of_time() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  wrong record;
begin
  if not works_for_the_service() then
    return null;
  end if;
  select a.lot_id, l.state, a.purpose into wrong
    from (select distinct lot_id, purpose from added) a join lots l on l.id = a.lot_id
    where l.state <> case a.purpose when 'sample' then 'planned'::lot_state when 'stand-in' then 'drawn' else 'screening' end limit 1;
  if found then
    raise exception 'lot % is % and takes no cord of purpose %', wrong.lot_id, wrong.state, wrong.purpose
      using errcode = 'check_violation', constraint = 'drawn_cords_in_their_time';
  end if;
  return null;
end $$;
--> statement-breakpoint
create trigger drawn_cords_in_their_time after insert on drawn_cords referencing new table as added
  for each statement execute function refuse_draw_out_of_time();
--> statement-breakpoint

-- A result is replaced only together with its earlier entry: that one is a true copy of what stands, and
-- the replacement is by who corrects and one number higher, in the same transaction. Alone, an entry only ceases to count, for its stand-in.
create function refuse_result_without_its_past() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if new.entry = old.entry and old.counts and not new.counts then
    if (to_jsonb(new) - 'counts')::text = (to_jsonb(old) - 'counts')::text
      and exists (select from drawn_cords where lot_id = new.lot_id and stands_in_for = new.position)
    then
      return new;
    end if;
  elsif new.entry = old.entry + 1 and old.counts and new.counts and exists (
    select from earlier_results e where e.lot_id = old.lot_id and e.position = old.position and e.entry = old.entry and e.corrected_by = new.recorded_by)
  then
    return new;
  end if;
  raise exception 'the entry of cord % of lot % is replaced only together with its earlier one', new.position, new.lot_id
    using errcode = 'check_violation', constraint = 'results_with_their_past';
end $$;
--> statement-breakpoint
create trigger with_their_past before update on results for each row when (works_for_the_service()) execute function refuse_result_without_its_past();
--> statement-breakpoint
create function keep_earlier_result() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  standing jsonb := (select to_jsonb(r) from results r where r.lot_id = new.lot_id and r.position = new.position);
  kept jsonb;
begin
  new.recorded_at := standing ->> 'recorded_at'; -- to the microsecond, which a program may not keep
  kept := to_jsonb(new) - array['corrected_by', 'corrected_at', 'correction_reason'];
  -- compared as text: 4.10 dB and 4.1 dB are the same number and not the same entry
  if kept::text is distinct from (select jsonb_object_agg(key, standing -> key)::text from jsonb_object_keys(kept) key) then
    raise exception 'the earlier entry of cord % of lot % is not the one that stands', new.position, new.lot_id
      using errcode = 'check_violation', constraint = 'earlier_results_true';
  end if;
  new.corrected_at := greatest(clock_timestamp(), (select moved_at from lots where id = new.lot_id));
  return new;
end $$;
--> statement-breakpoint
create trigger earlier_results_true before insert on earlier_results for each row when (works_for_the_service()) execute function keep_earlier_result();
--> statement-breakpoint
create function refuse_earlier_result_alone() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if (select entry from results where lot_id = new.lot_id and position = new.position) = new.entry then
    raise exception 'the entry of cord % of lot % was not replaced', new.position, new.lot_id
      using errcode = 'check_violation', constraint = 'earlier_results_replaced';
  end if;
  return null;
end $$;
--> statement-breakpoint
create constraint trigger earlier_results_replaced after insert on earlier_results deferrable initially deferred
  for each row when (works_for_the_service()) execute function refuse_earlier_result_alone();
