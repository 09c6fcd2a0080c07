-- What becomes of a lot that the plan rejects, and how far a count may differ from the announced one, are the item’s to say.
CREATE TYPE "public"."after_rejection" AS ENUM('return', 'screen');--> statement-breakpoint
ALTER TABLE "plans" ADD COLUMN "after_rejection" "after_rejection" DEFAULT 'return' NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "count_difference_percent" numeric DEFAULT '2' NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "after_rejection" "after_rejection" DEFAULT 'return' NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD CONSTRAINT "items_count_difference" CHECK ("items"."count_difference_percent" between 0 and 100);--> statement-breakpoint
grant update (count_difference_percent, after_rejection) on items to cordsift_service;
