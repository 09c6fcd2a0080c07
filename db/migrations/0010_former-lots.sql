-- A lot that was here before is linked to it: rejected, sorted and sent again, or sent in the place of one that went back.
ALTER TABLE "lots" ADD COLUMN "resubmission_of" integer;--> statement-breakpoint
ALTER TABLE "lots" ADD COLUMN "declared_sorting" text;--> statement-breakpoint
ALTER TABLE "lots" ADD COLUMN "replacement_of" integer;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_resubmission_of_lots_id_fk" FOREIGN KEY ("resubmission_of") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_replacement_of_lots_id_fk" FOREIGN KEY ("replacement_of") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "lots_resubmitted_once" ON "lots" USING btree ("resubmission_of") WHERE "lots"."size" is not null or "lots"."state" <> 'withdrawn';--> statement-breakpoint
CREATE INDEX "lots_replacements" ON "lots" USING btree ("replacement_of");--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_one_former" CHECK (num_nonnulls("lots"."resubmission_of", "lots"."replacement_of") <= 1);--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_declared_sorting" CHECK (("lots"."resubmission_of" is null) = ("lots"."declared_sorting" is null) and length(trim("lots"."declared_sorting")) between 1 and 2000);--> statement-breakpoint
-- The lot that is named went back, from the same supplier, of the same item; after a first resubmission there is no second one. What is said of it
-- is frozen with the plan, like everything that was announced.
create function refuse_other_former_lot() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if tg_op = 'UPDATE' then
    if old.state not in ('announced', 'received') and (new.resubmission_of, new.replacement_of, new.declared_sorting)
      is distinct from (old.resubmission_of, old.replacement_of, old.declared_sorting)
    then
      raise exception 'what was agreed and counted of lot % stays as it is', old.id using errcode = 'check_violation', constraint = 'lots_frozen';
    end if;
    if (new.resubmission_of, new.replacement_of, new.supplier_id, new.item_id)
      is not distinct from (old.resubmission_of, old.replacement_of, old.supplier_id, old.item_id)
    then
      return new;
    end if;
  end if;
  if coalesce(new.resubmission_of, new.replacement_of) is not null and not exists (
    select from lots f where f.id = coalesce(new.resubmission_of, new.replacement_of)
      and f.supplier_id = new.supplier_id and f.item_id = new.item_id
      and case when new.resubmission_of is null then f.state in ('returned', 'sorted') else f.state = 'returned' and f.resubmission_of is null end
  ) then
    raise exception 'lot % is not the lot that lot % was', coalesce(new.resubmission_of, new.replacement_of), new.id
      using errcode = 'check_violation', constraint = 'lots_former_went_back';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger former_lot_went_back before insert or update on lots for each row when (works_for_the_service()) execute function refuse_other_former_lot();
--> statement-breakpoint
-- What a supplier's samples add up to leaves a resubmitted lot out: it is what a sorting left of a lot that is counted already.
create or replace function count_decision() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  if new.after = 'sample' then
    insert into series_counts as s (supplier_id, item_id, lots, recorded, found, closed, latest_decided_at)
    select supplier_id, item_id, c.one, c.one * new.recorded, c.one * new.found, 0, new.decided_at
    from lots, lateral (select (resubmission_of is null)::int as one) c where id = new.lot_id
    on conflict (supplier_id, item_id) do update set lots = s.lots + excluded.lots, recorded = s.recorded + excluded.recorded,
      found = s.found + excluded.found, latest_decided_at = greatest(s.latest_decided_at, excluded.latest_decided_at);
  else
    update series_counts s set closed = s.closed + 1 from lots l
    where l.id = new.lot_id and s.supplier_id = l.supplier_id and s.item_id = l.item_id;
  end if;
  return null;
end $$;
--> statement-breakpoint
grant update (resubmission_of, declared_sorting, replacement_of) on lots to cordsift_service;
