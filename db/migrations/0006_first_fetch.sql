-- The standard's own plan is frozen beside the house's, and what its first picks showed is counted by lot.
CREATE TYPE "public"."severity" AS ENUM('normal', 'tightened', 'reduced');--> statement-breakpoint
CREATE TYPE "public"."table_standing" AS ENUM('read', 'derived', 'recalled');--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_sample_size" integer;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_acceptance_number" integer;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_rejection_number" integer;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_severity" "severity";--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_limit" text;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_level" "inspection_level";--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_letter" text;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "standard_standing" "table_standing";--> statement-breakpoint
ALTER TABLE "drawn_cords" ADD COLUMN "takes_pick" integer;--> statement-breakpoint
ALTER TABLE "tallies" ADD COLUMN "first_fetch_recorded" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "tallies" ADD COLUMN "first_fetch_found" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_standard_whole" CHECK (num_nonnulls("plans"."standard_sample_size", "plans"."standard_acceptance_number", "plans"."standard_rejection_number", "plans"."standard_severity", "plans"."standard_limit", "plans"."standard_level", "plans"."standard_letter", "plans"."standard_standing") in (0, 8));--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_standard_numbers" CHECK ("plans"."standard_sample_size" between 1 and "plans"."lot_size" and "plans"."standard_acceptance_number" >= 0 and "plans"."standard_rejection_number" > "plans"."standard_acceptance_number");--> statement-breakpoint
-- A stand-in holds the place of the pick that it replaced, through every stand-in before it.
with recursive held as (
  select s.lot_id, s.position, r.pick, r.stands_in_for from drawn_cords s
  join drawn_cords r on r.lot_id = s.lot_id and r.position = s.stands_in_for where s.stands_in_for is not null
  union all
  select h.lot_id, h.position, r.pick, r.stands_in_for from held h
  join drawn_cords r on r.lot_id = h.lot_id and r.position = h.stands_in_for
)
update drawn_cords d set takes_pick = h.pick from held h
where h.stands_in_for is null and d.lot_id = h.lot_id and d.position = h.position;
--> statement-breakpoint
ALTER TABLE "drawn_cords" ADD CONSTRAINT "drawn_cords_takes_pick" CHECK (("drawn_cords"."purpose" = 'stand-in') = ("drawn_cords"."takes_pick" is not null));
--> statement-breakpoint
create function hold_its_pick() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  select coalesce(takes_pick, pick) into new.takes_pick from drawn_cords where lot_id = new.lot_id and position = new.stands_in_for;
  return new;
end $$;
--> statement-breakpoint
create trigger stand_in_holds_its_pick before insert on drawn_cords for each row when (new.stands_in_for is not null) execute function hold_its_pick();
--> statement-breakpoint
-- What the standard's verdict needs is kept as it comes about, by lot: so a series never reads its cords. Apart from the other tallies,
-- as only lots with a first fetch have it.
create function count_first_fetch() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into tallies as t (lot_id, first_fetch_recorded, first_fetch_found)
  select r.lot_id, count(*), count(*) filter (where r.nonconforming)
  from added r join plans p on p.lot_id = r.lot_id join drawn_cords d on d.lot_id = r.lot_id and d.position = r.position
  where r.counts and coalesce(d.takes_pick, d.pick) <= p.standard_sample_size
  group by r.lot_id
  on conflict (lot_id) do update set first_fetch_recorded = t.first_fetch_recorded + excluded.first_fetch_recorded,
    first_fetch_found = t.first_fetch_found + excluded.first_fetch_found;
  return null;
end $$;
--> statement-breakpoint
create function count_first_fetch_again() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into tallies as t (lot_id, first_fetch_recorded, first_fetch_found)
  select r.lot_id, sum(sign), coalesce(sum(sign) filter (where r.nonconforming), 0)
  from (
    select -1 as sign, lot_id, position, counts, nonconforming from removed
    union all
    select 1, lot_id, position, counts, nonconforming from added
  ) r join plans p on p.lot_id = r.lot_id join drawn_cords d on d.lot_id = r.lot_id and d.position = r.position
  where r.counts and coalesce(d.takes_pick, d.pick) <= p.standard_sample_size
  group by r.lot_id
  on conflict (lot_id) do update set first_fetch_recorded = t.first_fetch_recorded + excluded.first_fetch_recorded,
    first_fetch_found = t.first_fetch_found + excluded.first_fetch_found;
  return null;
end $$;
--> statement-breakpoint
create trigger first_fetch_counted after insert on results referencing new table as added for each statement execute function count_first_fetch();
--> statement-breakpoint
create trigger first_fetch_counted_again after update on results referencing old table as removed new table as added for each statement execute function count_first_fetch_again();
