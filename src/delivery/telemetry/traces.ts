import { SpanStatusCode, trace } from '@opentelemetry/api';
import { CasetallyError } from '../../findings/errors.js';
import type { Traced } from '../worker/worker.js';

/**
 * Runs work in a span of the tracer that the process has; without an OpenTelemetry SDK nothing is recorded. Of an
 * error only its code or name is noted: messages can hold anything.
 */
export const inSpan: Traced = (name, attributes, work) =>
  trace.getTracer('casetally').startActiveSpan(name, { attributes: { ...attributes } }, async span => {
    try {
      return await work(more => span.setAttributes({ ...more }));
    } catch (error) {
      const message = error instanceof CasetallyError ? error.code : 'fault';
      span.setStatus({ code: SpanStatusCode.ERROR, message });
      throw error;
    } finally {
      span.end();
    }
  });
