# syntax=docker/dockerfile:1
# Written against the distribution's packages; not yet built or run (see docs/deployment.md).

FROM ubuntu:26.04 AS build
RUN apt-get update && apt-get install -y --no-install-recommends ca-certificates dotnet-sdk-10.0 && rm -rf /var/lib/apt/lists/*
WORKDIR /source
ENV DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 CI=true

# Restoring from the project and lock files alone keeps the packages' layer until one of them changes.
COPY global.json Directory.Build.props Directory.Packages.props .editorconfig BannedSymbols.txt ./
COPY src/PreApproval.Hazards/*.csproj src/PreApproval.Hazards/packages.lock.json src/PreApproval.Hazards/
COPY src/PreApproval.Audit/*.csproj src/PreApproval.Audit/packages.lock.json src/PreApproval.Audit/
COPY src/PreApproval.Documents/*.csproj src/PreApproval.Documents/packages.lock.json src/PreApproval.Documents/
COPY src/PreApproval.Procedures/*.csproj src/PreApproval.Procedures/packages.lock.json src/PreApproval.Procedures/
COPY src/PreApproval.Storage/*.csproj src/PreApproval.Storage/packages.lock.json src/PreApproval.Storage/
COPY src/PreApproval.Web/*.csproj src/PreApproval.Web/packages.lock.json src/PreApproval.Web/
RUN dotnet restore src/PreApproval.Web --locked-mode

COPY docs/ docs/
COPY src/ src/
RUN dotnet publish src/PreApproval.Web --no-restore -c Release -o /app

FROM ubuntu:26.04
RUN apt-get update && apt-get install -y --no-install-recommends aspnetcore-runtime-10.0 && rm -rf /var/lib/apt/lists/* \
 && useradd --system --no-create-home --shell /usr/sbin/nologin preapproval
WORKDIR /app
COPY --from=build /app ./
# The account owns nothing under /app and needs no folder to write to.
USER preapproval
ENV ASPNETCORE_HTTP_PORTS=8080 DOTNET_EnableDiagnostics=0
EXPOSE 8080

# Ready: the process answers and its database has the schema of this version. The image has bash but no curl.
HEALTHCHECK --interval=15s --timeout=5s --start-period=40s --retries=3 \
  CMD ["bash", "-c", "exec 3<>/dev/tcp/127.0.0.1/8080 && printf 'GET /health/ready HTTP/1.1\\r\\nHost: localhost\\r\\nConnection: close\\r\\n\\r\\n' >&3 && read -r _ status _ <&3 && [ \"$status\" = 200 ]"]

ENTRYPOINT ["dotnet", "PreApproval.Web.dll"]
