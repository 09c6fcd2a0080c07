CREATE TYPE "public"."series_note" AS ENUM('supplier-acted', 'reduced-wanted', 'reduced-ended');--> statement-breakpoint
CREATE TABLE "series_notes" (
	"id" integer PRIMARY KEY GENERATED ALWAYS AS IDENTITY (sequence name "series_notes_id_seq" INCREMENT BY 1 MINVALUE 1 MAXVALUE 2147483647 START WITH 1 CACHE 1),
	"supplier_id" integer NOT NULL,
	"item_id" integer NOT NULL,
	"kind" "series_note" NOT NULL,
	"reason" text NOT NULL,
	"noted_by" integer NOT NULL,
	"at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "series_notes_reason" CHECK (length(trim("series_notes"."reason")) between 1 and 2000)
);
--> statement-breakpoint
ALTER TABLE "series_notes" ADD CONSTRAINT "series_notes_supplier_id_suppliers_id_fk" FOREIGN KEY ("supplier_id") REFERENCES "public"."suppliers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "series_notes" ADD CONSTRAINT "series_notes_item_id_items_id_fk" FOREIGN KEY ("item_id") REFERENCES "public"."items"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "series_notes" ADD CONSTRAINT "series_notes_noted_by_people_id_fk" FOREIGN KEY ("noted_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "series_notes_series" ON "series_notes" USING btree ("supplier_id","item_id","id");--> statement-breakpoint
create trigger written_once before update or delete or truncate on series_notes for each statement execute function refuse_change();
--> statement-breakpoint
grant select, insert on series_notes to cordsift_service;
