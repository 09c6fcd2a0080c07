CREATE TYPE "public"."inspection_level" AS ENUM('S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III');--> statement-breakpoint
ALTER TABLE "lots" ADD COLUMN "isolated" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "critical" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "acceptance_quality_limit" numeric;--> statement-breakpoint
ALTER TABLE "items" ADD COLUMN "inspection_level" "inspection_level" DEFAULT 'II' NOT NULL;--> statement-breakpoint
ALTER TABLE "items" ADD CONSTRAINT "items_quality_limit" CHECK ("items"."acceptance_quality_limit" > 0 and "items"."acceptance_quality_limit" <= 10);