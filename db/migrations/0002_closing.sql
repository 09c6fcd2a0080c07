CREATE TYPE "public"."decided_after" AS ENUM('sample', 'screening');--> statement-breakpoint
ALTER TYPE "public"."lot_state" ADD VALUE 'sorted' BEFORE 'returned';--> statement-breakpoint
ALTER TYPE "public"."outcome" ADD VALUE 'sorted' BEFORE 'returned';--> statement-breakpoint
ALTER TABLE "decisions" DROP CONSTRAINT "decisions_against_the_verdict_with_reason";--> statement-breakpoint
ALTER TABLE "decisions" DROP CONSTRAINT "decisions_pkey";--> statement-breakpoint
ALTER TABLE "decisions" ADD COLUMN "after" "decided_after" NOT NULL;--> statement-breakpoint
ALTER TABLE "decisions" ALTER COLUMN "verdict" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "decisions" ADD CONSTRAINT "decisions_lot_id_after_pk" PRIMARY KEY("lot_id","after");--> statement-breakpoint
ALTER TABLE "decisions" ADD COLUMN "recorded" integer NOT NULL;--> statement-breakpoint
ALTER TABLE "decisions" ADD COLUMN "evidence" jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "decisions" ADD COLUMN "risk_bearer" text;--> statement-breakpoint
ALTER TABLE "decisions" ADD COLUMN "concession_use" text;--> statement-breakpoint
ALTER TABLE "decisions" ADD COLUMN "concession_cords" integer;--> statement-breakpoint
ALTER TABLE "decisions" ADD COLUMN "concession_until" date;--> statement-breakpoint
ALTER TABLE "submissions" ADD COLUMN "made" integer;--> statement-breakpoint
ALTER TABLE "decisions" DROP COLUMN "tested";--> statement-breakpoint
ALTER TABLE "decisions" ADD CONSTRAINT "decisions_outcome_of_its_time" CHECK (("decisions"."after" = 'sample') = ("decisions"."verdict" is not null) and (("decisions"."after" = 'sample' and "decisions"."outcome"::text <> 'sorted') or ("decisions"."after" = 'screening' and "decisions"."outcome"::text in ('sorted', 'returned'))));--> statement-breakpoint
ALTER TABLE "decisions" ADD CONSTRAINT "decisions_concession_whole" CHECK (case when "decisions"."outcome" = 'conceded' then length(trim(coalesce("decisions"."risk_bearer", ''))) > 0 and length(trim(coalesce("decisions"."concession_use", ''))) > 0 and "decisions"."concession_cords" >= 1 and "decisions"."concession_until" is not null
        else "decisions"."risk_bearer" is null and "decisions"."concession_use" is null and "decisions"."concession_cords" is null and "decisions"."concession_until" is null end);--> statement-breakpoint
ALTER TABLE "decisions" ADD CONSTRAINT "decisions_against_the_verdict_with_reason" CHECK (length(trim("decisions"."reason")) > 0 or "decisions"."after" = 'screening' or ("decisions"."verdict" = 'accept' and "decisions"."outcome" = 'accepted') or ("decisions"."verdict" = 'reject' and "decisions"."outcome" in ('returned', 'screened')));--> statement-breakpoint
GRANT UPDATE (made) ON "submissions" TO cordsift_service;--> statement-breakpoint

-- A result is added while a lot is being tested, and may be corrected until its last decision.
create or replace function refuse_result_outside_testing() returns trigger language plpgsql as $$
begin
  if not exists (
    select from lots where id = new.lot_id
    and (state in ('drawn', 'screening') or (state = 'screened' and tg_op = 'UPDATE'))
  ) then
    raise exception 'lot % is not being tested', new.lot_id using errcode = 'check_violation', constraint = 'results_while_tested';
  end if;
  return new;
end $$;
