ALTER TABLE "plans" ADD COLUMN "weaker_reason" text;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_weaker_reason" CHECK (length(trim("plans"."weaker_reason")) between 1 and 2000);