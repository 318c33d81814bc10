/** Avisos sobre el plan para lo que queda en el paciente. */
export const leftWarnings = {
  'finding.clinical.latest-differs':
    '«{what}» está previsto para {planned}, pero {device} solo puede quedarse hasta {latest}.',
  'finding.clinical.setting-without-criteria':
    '{device} queda con el ajuste «{set}», y nada que pueda medirse dice cuándo cambia.',
  'finding.clinical.contact-missing':
    'Algo queda en el paciente o está por hacer, y no consta a quién llamar.',
} as const;
