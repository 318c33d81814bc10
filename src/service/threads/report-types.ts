import type { ReportFormat } from '../../pipeline/print-report.js';

/** What each form of a report is sent as, and what its file is called by. */
export const reportTypes: Readonly<Record<ReportFormat, { readonly type: string; readonly ending: string }>> =
  {
    text: { type: 'text/plain; charset=utf-8', ending: 'txt' },
    html: { type: 'text/html; charset=utf-8', ending: 'html' },
    pdf: { type: 'application/pdf', ending: 'pdf' },
  };
