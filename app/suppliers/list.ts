// Suppliers as the list shows them.
export type SupplierLine = { id: number; name: string; lots: number; decided: number; lastAt: Date | undefined }
