ALTER TYPE "public"."plan_kind" ADD VALUE 'double';--> statement-breakpoint
ALTER TYPE "public"."plan_kind" ADD VALUE 'sequential';--> statement-breakpoint
ALTER TYPE "public"."plan_kind" ADD VALUE 'standard';--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "stages" jsonb;--> statement-breakpoint
ALTER TABLE "drawn_cords" ADD COLUMN "stage" integer;--> statement-breakpoint

-- Every plan so far looks at its sample once. Writing that down changes nothing of what was frozen, so its guard steps aside here.
ALTER TABLE "plans" DISABLE TRIGGER written_once;--> statement-breakpoint
UPDATE "plans" SET "stages" = jsonb_build_array(jsonb_build_object(
  'sampleSize', sample_size, 'acceptanceNumber', acceptance_number, 'rejectionNumber', acceptance_number + 1));--> statement-breakpoint
ALTER TABLE "plans" ENABLE TRIGGER written_once;--> statement-breakpoint
UPDATE "drawn_cords" SET "stage" = 1 WHERE purpose <> 'rest';--> statement-breakpoint
ALTER TABLE "plans" ALTER COLUMN "stages" SET NOT NULL;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_last_stage" CHECK (jsonb_typeof("plans"."stages") = 'array' and ("plans"."stages" -> -1 ->> 'sampleSize')::int is not distinct from "plans"."sample_size" and ("plans"."stages" -> -1 ->> 'acceptanceNumber')::int is not distinct from "plans"."acceptance_number");--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_stages_of_their_kind" CHECK (jsonb_array_length("plans"."stages") = 1 or "plans"."kind"::text in ('double', 'sequential', 'standard'));--> statement-breakpoint
ALTER TABLE "drawn_cords" ADD CONSTRAINT "drawn_cords_stage_unless_rest" CHECK (("drawn_cords"."purpose" = 'rest') = ("drawn_cords"."stage" is null) and "drawn_cords"."stage" >= 1);
