CREATE TABLE "series_counts" (
	"supplier_id" integer NOT NULL,
	"item_id" integer NOT NULL,
	"lots" integer NOT NULL,
	"recorded" bigint NOT NULL,
	"found" bigint NOT NULL,
	"closed" integer NOT NULL,
	"latest_decided_at" timestamp with time zone NOT NULL,
	CONSTRAINT "series_counts_supplier_id_item_id_pk" PRIMARY KEY("supplier_id","item_id")
);
--> statement-breakpoint
ALTER TABLE "tallies" ADD COLUMN "stand_ins" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "series_counts" ADD CONSTRAINT "series_counts_supplier_id_suppliers_id_fk" FOREIGN KEY ("supplier_id") REFERENCES "public"."suppliers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "series_counts" ADD CONSTRAINT "series_counts_item_id_items_id_fk" FOREIGN KEY ("item_id") REFERENCES "public"."items"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
-- What a history reads of many lots is kept as it comes about: stand-ins by lot, decisions by series.
create function count_stand_in() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into tallies as t (lot_id, stand_ins) values (new.lot_id, 1)
  on conflict (lot_id) do update set stand_ins = t.stand_ins + 1;
  return null;
end $$;
--> statement-breakpoint
create trigger stand_in_counted after insert on drawn_cords for each row when (new.stands_in_for is not null) execute function count_stand_in();
--> statement-breakpoint
create function count_decision() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  if new.after = 'sample' then
    insert into series_counts as s (supplier_id, item_id, lots, recorded, found, closed, latest_decided_at)
    select supplier_id, item_id, 1, new.recorded, new.found, 0, new.decided_at from lots where id = new.lot_id
    on conflict (supplier_id, item_id) do update set lots = s.lots + 1, recorded = s.recorded + excluded.recorded,
      found = s.found + excluded.found, latest_decided_at = greatest(s.latest_decided_at, excluded.latest_decided_at);
  else
    update series_counts s set closed = s.closed + 1 from lots l
    where l.id = new.lot_id and s.supplier_id = l.supplier_id and s.item_id = l.item_id;
  end if;
  return null;
end $$;
--> statement-breakpoint
create trigger decision_counted after insert on decisions for each row execute function count_decision();
--> statement-breakpoint
insert into tallies as t (lot_id, stand_ins)
select lot_id, count(*) from drawn_cords where stands_in_for is not null group by lot_id
on conflict (lot_id) do update set stand_ins = excluded.stand_ins;
--> statement-breakpoint
insert into series_counts (supplier_id, item_id, lots, recorded, found, closed, latest_decided_at)
select l.supplier_id, l.item_id, count(*) filter (where d.after = 'sample'), coalesce(sum(d.recorded) filter (where d.after = 'sample'), 0),
  coalesce(sum(d.found) filter (where d.after = 'sample'), 0), count(*) filter (where d.after = 'screening'), max(d.decided_at) filter (where d.after = 'sample')
from decisions d join lots l on l.id = d.lot_id group by l.supplier_id, l.item_id;
--> statement-breakpoint
grant select on series_counts to cordsift_service;
