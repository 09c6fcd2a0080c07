-- A cord at the bench asks the database less: what follows from new entries is done by one trigger, where there were three, and a rule
-- that has nothing to ask asks nothing. What the rules say is as before.
create function count_new_entries() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
declare
  e record;
begin
  for e in
    select r.lot_id, max(r.recorded_at) as at, bool_or(r.entry <> 1 or not r.counts) as begun_before,
      bool_or(r.spool is not null and r.kind = 'tested') as of_spools,
      count(*) filter (where r.counts and d.purpose <> 'rest') as sample_recorded,
      count(*) filter (where r.counts and d.purpose <> 'rest' and r.nonconforming) as sample_nonconforming,
      count(*) filter (where r.counts and d.purpose = 'rest') as rest_recorded,
      count(*) filter (where r.counts and d.purpose = 'rest' and r.nonconforming) as rest_nonconforming,
      count(*) filter (where r.counts and r.kind <> 'tested') as not_tested,
      count(*) filter (where r.counts and r.kind <> 'tested' and d.purpose <> 'rest') as sample_not_tested,
      count(*) filter (where r.kind = 'missing') as missing, count(*) filter (where r.state = 'marginal') as marginal,
      count(*) filter (where r.crosstalk_margin < 0) as crosstalk_short, count(*) filter (where r.return_loss_margin < 0) as return_loss_short,
      count(*) filter (where r.wire_map = 'at-fault') as wire_map_at_fault, count(*) filter (where r.visual = 'at-fault') as visual_at_fault
    from added r join drawn_cords d on d.lot_id = r.lot_id and d.position = r.position
    group by r.lot_id
  loop
    -- A first entry is number 1 and counts.
    if e.begun_before then
      if works_for_the_service() then
        raise exception 'a cord begins with entry 1' using errcode = 'check_violation', constraint = 'results_with_their_past';
      end if;
    end if;
    insert into tallies as t (lot_id, sample_recorded, sample_nonconforming, rest_recorded, rest_nonconforming, not_tested, sample_not_tested,
      missing, marginal, crosstalk_short, return_loss_short, wire_map_at_fault, visual_at_fault)
    values (e.lot_id, e.sample_recorded, e.sample_nonconforming, e.rest_recorded, e.rest_nonconforming, e.not_tested, e.sample_not_tested,
      e.missing, e.marginal, e.crosstalk_short, e.return_loss_short, e.wire_map_at_fault, e.visual_at_fault)
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
      visual_at_fault = t.visual_at_fault + excluded.visual_at_fault;
    if e.of_spools then
      insert into spool_tallies as t
      select lot_id, spool, count(*), count(*) filter (where nonconforming)
      from added where lot_id = e.lot_id and spool is not null and kind = 'tested' group by lot_id, spool
      on conflict (lot_id, spool) do update set
        recorded = t.recorded + excluded.recorded,
        nonconforming = t.nonconforming + excluded.nonconforming;
    end if;
    -- Work at the bench moves its lot: once a statement, so that a file of results costs one change.
    update lots set moved_at = greatest(moved_at, e.at) where id = e.lot_id;
  end loop;
  return null;
end $$;
--> statement-breakpoint
drop trigger tally_inserted on results;
--> statement-breakpoint
drop trigger spool_tally_inserted on results;
--> statement-breakpoint
drop trigger lot_moved_by_new_entries on results;
--> statement-breakpoint
create trigger new_entries_counted after insert on results referencing new table as added for each statement execute function count_new_entries();
--> statement-breakpoint
drop function tally_inserted();
--> statement-breakpoint
drop function spool_tally_inserted();
--> statement-breakpoint
create or replace function move_lot_by_entries() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  update lots l set moved_at = greatest(l.moved_at, e.at)
  from (select lot_id, max(recorded_at) as at from added group by lot_id) e where l.id = e.lot_id;
  return null;
end $$;
--> statement-breakpoint

-- The step is looked at where there is one; the papers are asked for by nothing else.
create or replace function refuse_step_outside_lifecycle() returns trigger language plpgsql set search_path = public, pg_temp as $$
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
  if new.state <> old.state then
    if not (case new.state
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

-- What the line is compared with is asked for at once.
create or replace function date_audit_line() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  clock timestamptz := clock_timestamp();
  moved timestamptz;
  before timestamptz;
  own_name text;
begin
  select (select moved_at from lots where id = substring(new.subject from '^lot/([0-9]{1,9})(?:/|$)')::int),
    (select at from audit where subject = new.subject order by id desc limit 1), (select name from people where id = new.person_id)
  into moved, before, own_name;
  new.at := greatest(case when moved >= transaction_timestamp() then moved else clock end, before);
  new.clock_behind := nullif(greatest(0, floor(extract(epoch from new.at - clock)))::int, 0);
  new.person_name := coalesce(own_name, new.person_name);
  return new;
end $$;
