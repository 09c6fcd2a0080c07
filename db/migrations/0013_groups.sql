-- Cord by cord goes in groups, each the next picks of the draw; a plan keeps how many cords its groups have, and an item says it.
ALTER TYPE "public"."plan_kind" ADD VALUE 'groups' BEFORE 'sequential';--> statement-breakpoint
ALTER TABLE "plans" DROP CONSTRAINT "plans_stages_of_their_kind";--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "group_size" integer;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "group_size" integer DEFAULT 30 NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_group_size" CHECK (("plans"."group_size" is not null) = ("plans"."kind"::text = 'groups') and "plans"."group_size" between 2 and 1000);--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_stages_of_their_kind" CHECK (jsonb_array_length("plans"."stages") = 1 or "plans"."kind"::text in ('double', 'groups', 'sequential', 'standard'));--> statement-breakpoint
ALTER TABLE "items" ADD CONSTRAINT "items_group_size" CHECK ("items"."group_size" between 2 and 1000);
--> statement-breakpoint
-- A group is the next so many picks of the draw over the whole lot: the last one alone is smaller, where the lot ends.
create function refuse_groups_of_other_sizes() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  if jsonb_array_length(new.stages) < 2 or exists (
    select from jsonb_array_elements(new.stages) with ordinality as one (stage, at)
    where (one.stage ->> 'sampleSize')::bigint is distinct from least(new.lot_size, one.at * new.group_size)
  ) then
    raise exception 'the groups of lot % are not of % cords', new.lot_id, new.group_size using errcode = 'check_violation', constraint = 'plans_groups_of_their_size';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger groups_of_their_size before insert on plans for each row when (new.kind::text = 'groups') execute function refuse_groups_of_other_sizes();
--> statement-breakpoint
grant update (group_size) on items to cordsift_service;
