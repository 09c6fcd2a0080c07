-- What keys and checks cannot say: the rules that look at another table, the tallies, and who may touch what.

-- Whether this session is the service's own login: one that cannot work as the owner of the tables, who made this function.
create function works_for_the_service() returns boolean language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select not pg_has_role(session_user, current_user, 'member')
$$;
--> statement-breakpoint

-- A result is added while a lot is being tested, and may be corrected until its last decision. An entry carries the lot's version of its time.
create function refuse_result_outside_testing() returns trigger language plpgsql as $$
declare
  lot record;
begin
  select state, version into lot from lots where id = new.lot_id;
  if lot.state in ('drawn', 'screening') or (lot.state = 'screened' and tg_op = 'UPDATE') then
    if tg_op = 'INSERT' or new.entry <> old.entry then
      new.lot_version := lot.version;
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
create function refuse_position_outside_lot() returns trigger language plpgsql as $$
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
create function refuse_decision_by_recorder() returns trigger language plpgsql as $$
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
create function refuse_change() returns trigger language plpgsql as $$
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

-- The service works as this role; it may not remove history. The owner of the database makes it once; several databases of one server share it.
-- Where the owner may make no roles, an administrator can have made it, and have granted it to the owner.
do $$ begin
  if not exists (select from pg_roles where rolname = 'cordsift_service') then
    create role cordsift_service nologin;
  end if;
exception when duplicate_object or unique_violation then null;
end $$;
--> statement-breakpoint
do $$ begin
  -- From 16 on a role's maker is a member of it without the right to work as it, and only there can one ask for that right.
  if not pg_has_role(current_user, 'cordsift_service', case when current_setting('server_version_num')::int >= 160000 then 'SET' else 'MEMBER' end) then
    execute format('grant cordsift_service to %I', current_user);
  end if;
end $$;
--> statement-breakpoint
grant usage on schema public to cordsift_service;
--> statement-breakpoint
grant select, insert on people, sessions, sign_in_attempts, set_up_links, firms, submissions, suppliers, items, lots, plans, draws, drawn_cords, results, earlier_results, decisions, audit, series_notes to cordsift_service;
--> statement-breakpoint
grant select on tallies, spool_tallies to cordsift_service;
--> statement-breakpoint
grant update on people, sessions, sign_in_attempts, set_up_links, suppliers, items, lots, results to cordsift_service;
--> statement-breakpoint
grant delete on sessions, sign_in_attempts, submissions to cordsift_service;
--> statement-breakpoint
grant update (made) on submissions to cordsift_service;
