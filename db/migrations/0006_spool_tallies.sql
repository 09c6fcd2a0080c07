CREATE TABLE "spool_tallies" (
	"lot_id" integer NOT NULL,
	"spool" text NOT NULL,
	"recorded" integer NOT NULL,
	"nonconforming" integer NOT NULL,
	CONSTRAINT "spool_tallies_lot_id_spool_pk" PRIMARY KEY("lot_id","spool")
);
--> statement-breakpoint
ALTER TABLE "spool_tallies" ADD CONSTRAINT "spool_tallies_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;
--> statement-breakpoint

-- Kept by the database itself, one upsert a statement, as the tallies are.
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
insert into spool_tallies
select lot_id, spool, count(*), count(*) filter (where nonconforming) from results
where spool is not null and kind = 'tested' group by lot_id, spool;
--> statement-breakpoint
grant select on spool_tallies to cordsift_service;
