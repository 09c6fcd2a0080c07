-- An item and an order carry the contract's clause, which is frozen with the plan and may stand as the reason of a weaker one.
ALTER TABLE "lots" ADD COLUMN "clause_number" text;--> statement-breakpoint
ALTER TABLE "lots" ADD COLUMN "clause_text" text;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "weaker_by_clause" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "clause_number" text;--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "clause_text" text;--> statement-breakpoint
ALTER TABLE "plan_rules" ADD COLUMN "by_clause" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "clause_number" text;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "clause_text" text;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_clause" CHECK (("lots"."clause_number" is null) = ("lots"."clause_text" is null) and length(trim("lots"."clause_number")) between 1 and 40 and length(trim("lots"."clause_text")) between 1 and 2000);--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_clause" CHECK (("plans"."clause_number" is null) = ("plans"."clause_text" is null) and length(trim("plans"."clause_number")) between 1 and 40 and length(trim("plans"."clause_text")) between 1 and 2000);--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_weaker_by_clause" CHECK (not "plans"."weaker_by_clause" or "plans"."clause_number" is not null);--> statement-breakpoint
ALTER TABLE "items" ADD CONSTRAINT "items_clause" CHECK (("items"."clause_number" is null) = ("items"."clause_text" is null) and length(trim("items"."clause_number")) between 1 and 40 and length(trim("items"."clause_text")) between 1 and 2000);--> statement-breakpoint
-- The clause of an order stays from the plan on, as everything that was announced.
create function refuse_other_clause() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if old.state not in ('announced', 'received') and (new.clause_number, new.clause_text) is distinct from (old.clause_number, old.clause_text) then
    raise exception 'what was agreed and counted of lot % stays as it is', old.id using errcode = 'check_violation', constraint = 'lots_frozen';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger clause_stays before update on lots for each row when (works_for_the_service()) execute function refuse_other_clause();
--> statement-breakpoint
-- A plan quotes the order's own clause, and where the order has none that of the item.
create function refuse_clause_of_nobody() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if not exists (
    select from lots l join items i on i.id = l.item_id where l.id = new.lot_id and (new.clause_number, new.clause_text) is not distinct from
      (coalesce(l.clause_number, i.clause_number), coalesce(l.clause_text, i.clause_text))
  ) then
    raise exception 'the clause is not that of lot % or its item', new.lot_id using errcode = 'check_violation', constraint = 'plans_clause_of_its_lot';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger clause_of_its_lot before insert on plans for each row when (works_for_the_service()) execute function refuse_clause_of_nobody();
--> statement-breakpoint
grant update (clause_number, clause_text) on items to cordsift_service;
--> statement-breakpoint
grant update (clause_number, clause_text) on lots to cordsift_service;
--> statement-breakpoint
grant update (by_clause) on plan_rules to cordsift_service;
