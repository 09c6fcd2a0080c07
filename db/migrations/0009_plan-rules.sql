-- The officer may choose at announcement by which rule the plan freezes once the inspector has confirmed the count.
CREATE TYPE "public"."rule_wait" AS ENUM('count', 'marks', 'item', 'numbers', 'weaker', 'discontinued');--> statement-breakpoint
CREATE TABLE "plan_rules" (
	"lot_id" integer PRIMARY KEY NOT NULL,
	"kind" "plan_kind" NOT NULL,
	"sample_size" integer,
	"acceptance_number" integer,
	"good" integer,
	"good_risk" numeric,
	"reason" text,
	"item_id" integer NOT NULL,
	"item_version" integer NOT NULL,
	"chosen_by" integer NOT NULL,
	"chosen_at" timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
	"waits" "rule_wait",
	CONSTRAINT "plan_rules_chosen" UNIQUE("lot_id","kind","chosen_by"),
	CONSTRAINT "plan_rules_kind" CHECK ("plan_rules"."kind"::text in ('zero-acceptance', 'single', 'contract', 'every-cord')),
	CONSTRAINT "plan_rules_numbers" CHECK (num_nonnulls("plan_rules"."sample_size", "plan_rules"."acceptance_number") = case "plan_rules"."kind"::text when 'contract' then 2 else 0 end and "plan_rules"."sample_size" > "plan_rules"."acceptance_number" and "plan_rules"."acceptance_number" >= 0),
	CONSTRAINT "plan_rules_good" CHECK (num_nonnulls("plan_rules"."good", "plan_rules"."good_risk") = case "plan_rules"."kind"::text when 'single' then 2 else 0 end and "plan_rules"."good" >= 0 and "plan_rules"."good_risk" > 0 and "plan_rules"."good_risk" < 1),
	CONSTRAINT "plan_rules_reason" CHECK (length(trim("plan_rules"."reason")) between 1 and 2000)
);
--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "chosen_by" integer;--> statement-breakpoint
ALTER TABLE "plan_rules" ADD CONSTRAINT "plan_rules_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plan_rules" ADD CONSTRAINT "plan_rules_item_id_items_id_fk" FOREIGN KEY ("item_id") REFERENCES "public"."items"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plan_rules" ADD CONSTRAINT "plan_rules_chosen_by_people_id_fk" FOREIGN KEY ("chosen_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_chosen_by_people_id_fk" FOREIGN KEY ("chosen_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
-- A plan that froze by a rule is of that rule, as the officer chose it.
alter table plans add constraint plans_by_their_rule foreign key (lot_id, kind, chosen_by) references plan_rules (lot_id, kind, chosen_by);
--> statement-breakpoint
-- A rule is chosen, changed and given up while its lot is announced, at the database's own time; the receipt says why its plan waits, and from
-- the plan on nothing is changed.
create function refuse_rule_too_late() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  stands lot_state := (select state from lots where id = coalesce(new.lot_id, old.lot_id));
  only_waits boolean := false;
begin
  if tg_op = 'UPDATE' then
    only_waits := to_jsonb(new) - 'waits' = to_jsonb(old) - 'waits';
  end if;
  if not (stands = 'announced' or only_waits and stands = 'received') then
    raise exception 'the rule of a lot that is % stays as it is', stands using errcode = 'check_violation', constraint = 'plan_rules_while_announced';
  end if;
  if tg_op = 'DELETE' then
    return old;
  end if;
  if not only_waits then
    new.chosen_at := clock_timestamp();
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger chosen_while_announced before insert or update or delete on plan_rules for each row when (works_for_the_service()) execute function refuse_rule_too_late();
--> statement-breakpoint
-- The plan that froze by its rule is the one that nothing held up.
create function refuse_plan_that_waits() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if exists (select from plan_rules where lot_id = new.lot_id and waits is not null) then
    raise exception 'the plan of lot % waits for the officer', new.lot_id using errcode = 'check_violation', constraint = 'plans_that_wait';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger no_plan_that_waits before insert on plans for each row when (new.chosen_by is not null) execute function refuse_plan_that_waits();
--> statement-breakpoint
grant select, insert, delete on plan_rules to cordsift_service;
--> statement-breakpoint
grant update (kind, sample_size, acceptance_number, good, good_risk, reason, item_id, item_version, chosen_by, chosen_at, waits) on plan_rules to cordsift_service;
