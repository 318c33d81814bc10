/** The flags of `casetally bulk`. */
export interface BulkFlags {
  readonly to?: string;
  readonly out?: string;
  readonly register?: boolean;
  readonly system?: string;
  readonly sign?: string;
  readonly site?: string;
  readonly data?: string;
  readonly journal?: string;
  readonly threads?: number;
  readonly seconds?: number;
  readonly quiet?: boolean;
  readonly json?: boolean;
}
