-- Run once by a superuser on an empty server: two roles and the database.
-- preapproval_owner owns the schema and is used by "migrate" only. preapproval_app is what the application connects as:
-- it can create, change or drop nothing, and the migrations give it only the rights that it needs on each table.
-- Passwords come from the environment (psql 14 or newer). Elsewhere: psql --file=init-roles.sql with both variables set.
\set ON_ERROR_STOP on
\getenv owner_password PREAPPROVAL_OWNER_PASSWORD
\getenv app_password PREAPPROVAL_APP_PASSWORD

CREATE ROLE preapproval_owner LOGIN PASSWORD :'owner_password' NOSUPERUSER NOCREATEDB NOCREATEROLE NOREPLICATION NOBYPASSRLS;
CREATE ROLE preapproval_app LOGIN PASSWORD :'app_password' NOSUPERUSER NOCREATEDB NOCREATEROLE NOREPLICATION NOBYPASSRLS;

CREATE DATABASE preapproval OWNER preapproval_owner TEMPLATE template0 ENCODING 'UTF8' LC_COLLATE 'C.UTF-8' LC_CTYPE 'C.UTF-8';
REVOKE ALL ON DATABASE preapproval FROM PUBLIC;
GRANT CONNECT ON DATABASE preapproval TO preapproval_app;

\connect preapproval
ALTER SCHEMA public OWNER TO preapproval_owner;
REVOKE ALL ON SCHEMA public FROM PUBLIC;
GRANT USAGE ON SCHEMA public TO preapproval_app;
