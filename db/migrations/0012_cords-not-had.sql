-- A drawn cord that cannot be had: too damaged to test, not in its place, gone or spoiled here.
CREATE TYPE "public"."cord_ruling" AS ENUM('reserve', 'nonconforming');--> statement-breakpoint
CREATE TYPE "public"."undecided_rule" AS ENUM('manager-rules', 'nonconforming');--> statement-breakpoint
ALTER TYPE "public"."result_kind" ADD VALUE 'damaged';--> statement-breakpoint
ALTER TYPE "public"."result_kind" ADD VALUE 'gone';--> statement-breakpoint
ALTER TYPE "public"."result_kind" ADD VALUE 'spoiled';--> statement-breakpoint
ALTER TYPE "public"."result_kind" ADD VALUE 'no-cord';--> statement-breakpoint
CREATE TABLE "recounts" (
	"lot_id" integer NOT NULL,
	"position" integer NOT NULL,
	"size" integer NOT NULL,
	"reason" text NOT NULL,
	"counted_by" integer NOT NULL,
	"counted_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "recounts_lot_id_position_pk" PRIMARY KEY("lot_id","position"),
	CONSTRAINT "recounts_size" CHECK ("recounts"."size" >= 1),
	CONSTRAINT "recounts_reason" CHECK (length(trim("recounts"."reason")) between 1 and 500)
);
--> statement-breakpoint
CREATE TABLE "rulings" (
	"lot_id" integer NOT NULL,
	"position" integer NOT NULL,
	"ruling" "cord_ruling" NOT NULL,
	"reason" text NOT NULL,
	"recorded" integer NOT NULL,
	"found" integer NOT NULL,
	"undecided" integer NOT NULL,
	"duties_separated" boolean NOT NULL,
	"ruled_by" integer NOT NULL,
	"ruled_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "rulings_lot_id_position_pk" PRIMARY KEY("lot_id","position"),
	CONSTRAINT "rulings_reason" CHECK (length(trim("rulings"."reason")) between 1 and 500)
);
--> statement-breakpoint
ALTER TABLE "results" DROP CONSTRAINT "results_whole";--> statement-breakpoint
ALTER TABLE "results" DROP CONSTRAINT "results_counting";--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "undecided_counts" "undecided_rule" DEFAULT 'manager-rules' NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "undecided_counts" "undecided_rule" DEFAULT 'manager-rules' NOT NULL;--> statement-breakpoint
ALTER TABLE "results" ADD COLUMN "undecided" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "tallies" ADD COLUMN "undecided" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "tallies" ADD COLUMN "replaced" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "tallies" ADD COLUMN "no_cord" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "tallies" ADD COLUMN "recounted_size" integer;--> statement-breakpoint
ALTER TABLE "recounts" ADD CONSTRAINT "recounts_counted_by_people_id_fk" FOREIGN KEY ("counted_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recounts" ADD CONSTRAINT "recounts_lot_id_position_drawn_cords_lot_id_position_fk" FOREIGN KEY ("lot_id","position") REFERENCES "public"."drawn_cords"("lot_id","position") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "rulings" ADD CONSTRAINT "rulings_ruled_by_people_id_fk" FOREIGN KEY ("ruled_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "rulings" ADD CONSTRAINT "rulings_lot_id_position_drawn_cords_lot_id_position_fk" FOREIGN KEY ("lot_id","position") REFERENCES "public"."drawn_cords"("lot_id","position") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "results_undecided" ON "results" USING btree ("lot_id","position") WHERE "results"."undecided";--> statement-breakpoint
ALTER TABLE "results" ADD CONSTRAINT "results_undecided_kind" CHECK (not "results"."undecided" or (not "results"."counts" and "results"."kind"::text in ('gone', 'spoiled')));--> statement-breakpoint
ALTER TABLE "results" ADD CONSTRAINT "results_whole" CHECK (case "results"."kind"::text when 'tested' then "results"."wire_map" is not null and "results"."visual" is not null and "results"."state" <> 'not-tested'
        and ("results"."wire_map" = 'at-fault' or "results"."visual" = 'at-fault' or ("results"."crosstalk_margin" is not null and "results"."return_loss_margin" is not null))
        when 'damaged' then "results"."state" = 'does-not-conform' and "results"."visual" = 'at-fault' and "results"."wire_map" is null
        and length(trim(coalesce("results"."note", ''))) > 0 and "results"."crosstalk_margin" is null and "results"."return_loss_margin" is null
        else "results"."state" = 'not-tested' and "results"."nonconforming" and length(trim(coalesce("results"."note", ''))) > 0 and "results"."crosstalk_margin" is null and "results"."return_loss_margin" is null end);--> statement-breakpoint
ALTER TABLE "results" ADD CONSTRAINT "results_counting" CHECK (case when "results"."kind"::text in ('tested', 'damaged') then "results"."counts" else "results"."kind"::text <> 'no-cord' or not "results"."counts" end);
--> statement-breakpoint
-- Up to here only a stand-in took a cord out of the sample.
update tallies set replaced = stand_ins where stand_ins > 0;
--> statement-breakpoint
-- A cord too damaged to test is tested: its visual inspection is at fault. What lies in no place, or is gone, is missing.
create or replace function count_new_entries() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
declare
  e record;
begin
  for e in
    select r.lot_id, max(r.recorded_at) as at, bool_or(r.entry <> 1 or not (r.counts or r.undecided or r.kind = 'no-cord')) as begun_before,
      bool_or(r.spool is not null and r.kind = 'tested') as of_spools,
      count(*) filter (where r.counts and d.purpose <> 'rest') as sample_recorded,
      count(*) filter (where r.counts and d.purpose <> 'rest' and r.nonconforming) as sample_nonconforming,
      count(*) filter (where r.counts and d.purpose = 'rest') as rest_recorded,
      count(*) filter (where r.counts and d.purpose = 'rest' and r.nonconforming) as rest_nonconforming,
      count(*) filter (where r.counts and r.kind not in ('tested', 'damaged')) as not_tested,
      count(*) filter (where r.counts and r.kind not in ('tested', 'damaged') and d.purpose <> 'rest') as sample_not_tested,
      count(*) filter (where r.kind in ('missing', 'gone', 'no-cord')) as missing, count(*) filter (where r.state = 'marginal') as marginal,
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
create or replace function tally_updated() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into tallies as t (lot_id, sample_recorded, sample_nonconforming, rest_recorded, rest_nonconforming, not_tested, sample_not_tested,
    missing, marginal, crosstalk_short, return_loss_short, wire_map_at_fault, visual_at_fault)
  select r.lot_id,
    coalesce(sum(sign) filter (where r.counts and d.purpose <> 'rest'), 0),
    coalesce(sum(sign) filter (where r.counts and d.purpose <> 'rest' and r.nonconforming), 0),
    coalesce(sum(sign) filter (where r.counts and d.purpose = 'rest'), 0),
    coalesce(sum(sign) filter (where r.counts and d.purpose = 'rest' and r.nonconforming), 0),
    coalesce(sum(sign) filter (where r.counts and r.kind not in ('tested', 'damaged')), 0),
    coalesce(sum(sign) filter (where r.counts and r.kind not in ('tested', 'damaged') and d.purpose <> 'rest'), 0),
    coalesce(sum(sign) filter (where r.kind in ('missing', 'gone', 'no-cord')), 0), coalesce(sum(sign) filter (where r.state = 'marginal'), 0),
    coalesce(sum(sign) filter (where r.crosstalk_margin < 0), 0), coalesce(sum(sign) filter (where r.return_loss_margin < 0), 0),
    coalesce(sum(sign) filter (where r.wire_map = 'at-fault'), 0), coalesce(sum(sign) filter (where r.visual = 'at-fault'), 0)
  from (
    select -1 as sign, lot_id, position, counts, nonconforming, kind, state, crosstalk_margin, return_loss_margin, wire_map, visual from removed
    union all
    select 1, lot_id, position, counts, nonconforming, kind, state, crosstalk_margin, return_loss_margin, wire_map, visual from added
  ) r join drawn_cords d on d.lot_id = r.lot_id and d.position = r.position
  group by r.lot_id
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
  return null;
end $$;
--> statement-breakpoint
-- What counts nowhere is rare: looked at row by row, and only where there is some.
create function count_set_aside() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
declare
  gone results;
begin
  if tg_op = 'UPDATE' then
    gone := old;
  end if;
  insert into tallies as t (lot_id, undecided, replaced, no_cord) values (new.lot_id,
    new.undecided::int - coalesce(gone.undecided, false)::int,
    (not (new.counts or new.undecided or new.kind = 'no-cord'))::int - coalesce(not (gone.counts or gone.undecided or gone.kind = 'no-cord'), false)::int,
    (new.kind = 'no-cord')::int - coalesce(gone.kind = 'no-cord', false)::int)
  on conflict (lot_id) do update set undecided = t.undecided + excluded.undecided, replaced = t.replaced + excluded.replaced,
    no_cord = t.no_cord + excluded.no_cord;
  return null;
end $$;
--> statement-breakpoint
create trigger set_aside_counted after insert on results for each row when (not new.counts) execute function count_set_aside();
--> statement-breakpoint
create trigger set_aside_counted_again after update on results for each row when (not (old.counts and new.counts)) execute function count_set_aside();
--> statement-breakpoint
-- A lot that is screened has an entry of each of its places, whatever lies there.
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
      when 'screened' then new.size = (select sample_recorded + rest_recorded + replaced + no_cord from tallies where lot_id = new.id)
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
-- What is gone or spoiled here while the sample is tested is undecided, unless the plan says that it counts; in a screening it counts, as no
-- reserve is left. That a place is empty says a recount.
create function judge_what_cannot_be_had() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  open_to_ruling boolean;
begin
  if tg_op = 'UPDATE' then
    if new.entry = old.entry then
      return new; -- a ruling, which refuse_result_without_its_past looks at
    end if;
  end if;
  if new.kind in ('missing', 'untestable') then
    raise exception 'cord % of lot % is damaged, gone, spoiled or not there', new.position, new.lot_id
      using errcode = 'check_violation', constraint = 'results_of_a_known_kind';
  elsif new.kind = 'no-cord' then
    if tg_op = 'UPDATE' or not exists (select from recounts where lot_id = new.lot_id and position = new.position) then
      raise exception 'no recount says that cord % of lot % is not there', new.position, new.lot_id
        using errcode = 'check_violation', constraint = 'results_by_a_recount';
    end if;
  else
    select l.state = 'drawn' and p.undecided_counts = 'manager-rules' into open_to_ruling
      from lots l join plans p on p.lot_id = l.id where l.id = new.lot_id;
    if new.undecided <> open_to_ruling or new.counts = open_to_ruling then
      raise exception 'cord % of lot % counts as its plan says', new.position, new.lot_id
        using errcode = 'check_violation', constraint = 'results_undecided_by_the_plan';
    end if;
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger what_cannot_be_had before insert or update on results
  for each row when (new.kind::text not in ('tested', 'damaged') and works_for_the_service()) execute function judge_what_cannot_be_had();
--> statement-breakpoint
-- A result is replaced only together with its earlier entry: that one is a true copy of what stands, and the replacement is by who corrects and
-- one number higher, in the same transaction. Alone, an entry only ceases to be undecided, as the manager ruled.
create or replace function refuse_result_without_its_past() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  ruled cord_ruling := (select ruling from rulings where lot_id = new.lot_id and position = new.position);
begin
  if new.entry = old.entry then
    if old.undecided and not new.undecided and (to_jsonb(new) - array['counts', 'undecided'])::text = (to_jsonb(old) - array['counts', 'undecided'])::text
      and (case ruled
        when 'nonconforming' then new.counts
        when 'reserve' then not new.counts and exists (select from drawn_cords where lot_id = new.lot_id and stands_in_for = new.position)
        else false
      end)
    then
      return new;
    end if;
  elsif new.entry = old.entry + 1 and ruled is null and (old.counts or old.undecided) and (new.counts or new.undecided) and exists (
    select from earlier_results e where e.lot_id = old.lot_id and e.position = old.position and e.entry = old.entry and e.corrected_by = new.recorded_by)
  then
    return new;
  end if;
  raise exception 'the entry of cord % of lot % is replaced only together with its earlier one', new.position, new.lot_id
    using errcode = 'check_violation', constraint = 'results_with_their_past';
end $$;
--> statement-breakpoint
-- A recount comes with the entry that its place is empty, while cords are recorded; it never finds more than the places that are left.
create function refuse_recount() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  lot record;
begin
  select l.state, l.size, l.moved_at, t.recounted_size, (select count(*) from recounts r where r.lot_id = l.id) as before
    into lot from lots l left join tallies t on t.lot_id = l.id where l.id = new.lot_id;
  if lot.state not in ('drawn', 'screening') or new.size > least(lot.recounted_size, lot.size - lot.before - 1) then
    raise exception 'the recount of lot % is not of its time or its places', new.lot_id
      using errcode = 'check_violation', constraint = 'recounts_of_its_places';
  end if;
  new.counted_at := greatest(clock_timestamp(), lot.moved_at);
  return new;
end $$;
--> statement-breakpoint
create trigger recounts_of_its_places before insert on recounts for each row when (works_for_the_service()) execute function refuse_recount();
--> statement-breakpoint
create function keep_recounted_size() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into tallies as t (lot_id, recounted_size) values (new.lot_id, new.size)
  on conflict (lot_id) do update set recounted_size = least(t.recounted_size, excluded.recounted_size);
  return null;
end $$;
--> statement-breakpoint
create trigger recounted after insert on recounts for each row execute function keep_recounted_size();
--> statement-breakpoint
create function refuse_recount_alone() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if not exists (select from results where lot_id = new.lot_id and position = new.position and kind = 'no-cord') then
    raise exception 'the place of cord % of lot % was not recorded as empty', new.position, new.lot_id
      using errcode = 'check_violation', constraint = 'recounts_with_their_entry';
  end if;
  return null;
end $$;
--> statement-breakpoint
create constraint trigger recounts_with_their_entry after insert on recounts deferrable initially deferred
  for each row when (works_for_the_service()) execute function refuse_recount_alone();
--> statement-breakpoint
create trigger written_once before update or delete or truncate on recounts for each statement execute function refuse_change();
--> statement-breakpoint
-- A ruling is on an undecided cord, not by who reported it unless the firm has switched that rule off, and says what was known.
create function refuse_ruling() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  reported_by int := (select recorded_by from results where lot_id = new.lot_id and position = new.position and undecided);
begin
  if reported_by is null or (select state from lots where id = new.lot_id) <> 'drawn' then
    raise exception 'cord % of lot % is not undecided', new.position, new.lot_id using errcode = 'check_violation', constraint = 'rulings_on_undecided';
  end if;
  if new.duties_separated and reported_by = new.ruled_by then
    raise exception 'person % reported cord % of lot %', new.ruled_by, new.position, new.lot_id
      using errcode = 'check_violation', constraint = 'rulings_by_another_person';
  end if;
  select t.sample_recorded, t.sample_nonconforming, t.undecided, greatest(clock_timestamp(), l.moved_at)
    into new.recorded, new.found, new.undecided, new.ruled_at from tallies t join lots l on l.id = t.lot_id where t.lot_id = new.lot_id;
  return new;
end $$;
--> statement-breakpoint
create trigger rulings_on_undecided before insert on rulings for each row when (works_for_the_service()) execute function refuse_ruling();
--> statement-breakpoint
create function refuse_ruling_alone() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if exists (select from results where lot_id = new.lot_id and position = new.position and undecided) then
    raise exception 'cord % of lot % is undecided after its ruling', new.position, new.lot_id
      using errcode = 'check_violation', constraint = 'rulings_carried_out';
  end if;
  return null;
end $$;
--> statement-breakpoint
create constraint trigger rulings_carried_out after insert on rulings deferrable initially deferred
  for each row when (works_for_the_service()) execute function refuse_ruling_alone();
--> statement-breakpoint
create trigger written_once before update or delete or truncate on rulings for each statement execute function refuse_change();
--> statement-breakpoint
-- While a cord is undecided no verdict accepts, and nothing but a return is signed.
create function refuse_decision_while_undecided() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if (new.verdict is distinct from 'reject' or new.outcome <> 'returned')
    and exists (select from tallies where lot_id = new.lot_id and undecided > 0) then
    raise exception 'a cord of lot % is undecided', new.lot_id using errcode = 'check_violation', constraint = 'decisions_with_undecided';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger decisions_with_undecided before insert on decisions for each row execute function refuse_decision_while_undecided();
--> statement-breakpoint
grant select, insert on recounts, rulings to cordsift_service;
--> statement-breakpoint
grant update (undecided) on results to cordsift_service;
--> statement-breakpoint
grant update (undecided_counts) on items to cordsift_service;
