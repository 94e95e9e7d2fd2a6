/**
 * Keeps Astro quiet and off the network: no usage reports, no look for updates. Imported before Astro is, since it reads
 * the environment when it is loaded.
 */
process.env['ASTRO_TELEMETRY_DISABLED'] = '1';
process.env['ASTRO_DISABLE_UPDATE_CHECK'] = 'true';
